/** A place of the bench, drawn and said: what is read, which way the blade points, where the sticks are. */
import type { Rig } from '@swashtrue/mixing'
import { type BenchPlace, pointingOf } from './model.ts'
import { BladePicture, SpotPicture, SticksPicture } from './pictures.tsx'
import { bladeInWords, plusOf, sticksInWords, titleOf } from './words.ts'

const isFull = ({ sticks }: BenchPlace): boolean => Object.values(sticks).some((stick) => Math.abs(stick) === 1)

export function PlaceCard({ rig, place }: { rig: Rig; place: BenchPlace }) {
  const pointing = pointingOf(rig, place)
  const blade = bladeInWords(rig, place)
  return (
    <div className="place-card">
      <h2>{titleOf(rig, place)}</h2>
      <div className="place-pictures">
        {pointing ? <BladePicture pointing={pointing} flipped={place.flipped} /> : <SpotPicture measure={place.measure} />}
        <SticksPicture sticks={place.sticks} />
      </div>
      <ul className="place-words">
        <li>{sticksInWords(place)}</li>
        {blade && <li>{blade}</li>}
        {place.flipped && <li>Gauge turned end for end</li>}
        <li className="quiet">{plusOf(place)}</li>
      </ul>
      {isFull(place) && (
        <p className="bench-word warn">Move the stick there with the gauge off and the blade free; set the gauge on, read, take it off again before the stick moves.</p>
      )}
    </div>
  )
}
