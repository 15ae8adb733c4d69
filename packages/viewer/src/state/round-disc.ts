/** Blade pitch round the disc, for a plot: degrees at every five of psi, a row a blade, in arrays that are kept. */
import {
  type Case,
  makePose,
  type Pose,
  poseRing,
  type Rig,
  sampleRevolution,
  setHorns,
  setSticks,
  settleFlybar,
} from '@swashtrue/mixing'
import { preparedOf } from './pose.ts'
import { caseOf, type Stand, type Sticks } from './session.ts'

export const AZIMUTHS = 72

export interface RoundDisc {
  /** a row a blade; a row that cannot close all the way round is not drawn */
  rows: (Float64Array | undefined)[]
}

const DEG = 180 / Math.PI

export function createRoundDisc(): (rig: Rig, sticks: Sticks, stand: Stand) => RoundDisc {
  let pose: Pose | undefined
  let kept: Float64Array[] = []
  return (rig, sticks, stand) => {
    const prepared = preparedOf(rig)
    if (!pose || kept.length !== rig.rotor.blades) {
      pose = makePose(prepared)
      kept = Array.from({ length: rig.rotor.blades }, () => new Float64Array(AZIMUTHS))
    }
    const { pitchRad } = pose
    if (pitchRad.length !== rig.rotor.blades) pose = makePose(prepared)
    const kase: Case = caseOf(rig, sticks, stand)
    const mode = Math.max(
      0,
      rig.transmitter.flightModes.findIndex(({ name }) => name === kase.mode),
    )
    setSticks(prepared, pose, mode, sticks.collective, sticks.elevator, sticks.aileron)
    setHorns(prepared, pose)
    const reached = poseRing(prepared, pose)
    const settled = reached && kase.settled === true && settleFlybar(prepared, pose)
    const closes = reached && (kase.settled !== true || settled)
    const still = pose
    return {
      rows: kept.map((row, k) => {
        if (!closes) return undefined
        const teeterRad = (kase.teeter ?? 0) / DEG
        if (!sampleRevolution(prepared, still, k, teeterRad, settled ? still.wave : undefined, row)) return undefined
        for (let i = 0; i < row.length; i++) row[i] = (row[i] as number) * DEG
        return row
      }),
    }
  }
}
