/** A place of the bench, drawn and said: what is read, which way the blade points, where the sticks are. */
import type { Rig } from '@swashtrue/mixing'
import { type BenchPlace, pointingOf } from './model.ts'
import { BladePicture, SectionPicture, SpotPicture, SticksPicture } from './pictures.tsx'
import { bladeInWords, plusOf, sticksInWords, titleOf } from './words.ts'

const isFull = ({ sticks }: BenchPlace): boolean => Object.values(sticks).some((stick) => Math.abs(stick) === 1)
/** An instrument is in the way of the stick: an eye is not. */
const isByEye = ({ measure }: BenchPlace): boolean => measure.endsWith('-angle') || measure.endsWith('-arm')

export function PlaceCard({ rig, place, small = false }: { rig: Rig; place: BenchPlace; small?: boolean }) {
  const pointing = pointingOf(rig, place)
  const blade = bladeInWords(rig, place)
  const paddle = place.measure === 'paddle-pitch'
  const Title = small ? 'h3' : 'h2'
  return (
    <div className="place-card">
      <Title>
        {titleOf(rig, place)}
        {place.flipped && ', gauge turned end for end'}
      </Title>
      <div className="place-pictures">
        {pointing ? (
          <BladePicture
            pointing={pointing}
            flipped={place.flipped}
            of={place.of}
            blades={paddle ? 2 : rig.rotor.blades}
            clockwise={rig.rotor.rotation === 'clockwise'}
            paddle={paddle}
          />
        ) : (
          <SpotPicture measure={place.measure} />
        )}
        <div className="place-side">
          {pointing && <SectionPicture flipped={place.flipped} />}
          <SticksPicture sticks={place.sticks} />
        </div>
      </div>
      <p className="place-words">
        <b>{sticksInWords(place)}</b>
        {blade && (
          <>
            {'. '}
            <b>{blade}</b>
          </>
        )}
        . <span className="quiet">{plusOf(rig, place)}.</span>
      </p>
      {isFull(place) && !isByEye(place) && (
        <p className="bench-word warn slim">Gauge off while the stick moves. Set it on, read, take it off again.</p>
      )}
    </div>
  )
}
