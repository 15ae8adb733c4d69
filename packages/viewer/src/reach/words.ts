/** The map of the reach in sentences: for each thing that stops the sticks, the mildest place of the sticks where it does. */
import { partName, REACH_MISSES } from '@swashtrue/mixing'
import { COLLECTIVES, type ReachMap, stickAt } from '../state/reach.ts'

export const LEVELS = ['low', 'middle', 'full'] as const

export interface Shares {
  readonly free: number
  readonly cut: number
  readonly missed: number
}

export interface ReachWords {
  readonly says: readonly string[]
  /** of all places of the three maps, 0 to 1 */
  readonly shares: Shares
}

/** Named places of the cyclic stick: elevator, aileron, what it is called, and how far out that is. */
const PLACES = [
  [0, 0, 'the cyclic stick centred', 0],
  [1, 0, 'full forward elevator', 1],
  [-1, 0, 'full back elevator', 1],
  [0, -1, 'full left aileron', 1],
  [0, 1, 'full right aileron', 1],
  [1, -1, 'the forward left corner', 2],
  [1, 1, 'the forward right corner', 2],
  [-1, -1, 'the back left corner', 2],
  [-1, 1, 'the back right corner', 2],
] as const
const ELSEWHERE = 3

export const placeIn = (map: { side: number }, level: number, elevator: number, aileron: number): number => {
  const i = (stick: number): number => Math.round(((stick + 1) / 2) * (map.side - 1))
  return (level * map.side + i(elevator)) * map.side + i(aileron)
}

const hasCause = (code: number, cause: number): boolean =>
  cause >= REACH_MISSES ? code === cause : code < REACH_MISSES && (code & cause) !== 0

/** `limited`: whether a cyclic limit holds the stick's corners in. */
export function reachSays(map: ReachMap, limited: boolean): ReachWords {
  const { codes } = map
  const shares = sharesOf(codes)
  const causes = [1, 2, 4, ...map.paths.map((_, k) => REACH_MISSES + k)]
  const found = causes.flatMap((cause) => {
    const where = mildest(map, cause)
    return where ? [{ rank: where.rank, says: `${capital(where.says)}: ${causeSays(map, cause)}.` }] : []
  })
  if (found.length === 0) {
    return {
      says: [`Every corner ${limited ? 'inside the limit' : 'of the sticks'} is free, with collective low, middle and full.`],
      shares,
    }
  }
  return { says: found.sort((a, b) => a.rank - b.rank).map(({ says }) => says), shares }
}

function sharesOf(codes: Uint8Array): Shares {
  let free = 0
  let cut = 0
  for (const code of codes) {
    if (code === 0) free++
    else if (code < REACH_MISSES) cut++
  }
  return { free: free / codes.length, cut: cut / codes.length, missed: (codes.length - free - cut) / codes.length }
}

function mildest(map: ReachMap, cause: number): { rank: number; says: string } | undefined {
  const levels = COLLECTIVES.map((_, level) => {
    const hit = PLACES.filter(([elevator, aileron]) =>
      hasCause(map.codes[placeIn(map, level, elevator, aileron)] as number, cause),
    )
    const each = map.side * map.side
    const count = map.codes
      .subarray(level * each, (level + 1) * each)
      .reduce((sum, code) => sum + Number(hasCause(code, cause)), 0)
    const rank = hit.length > 0 ? Math.min(...hit.map((place) => place[3])) : count > 0 ? ELSEWHERE : Number.POSITIVE_INFINITY
    return { level, rank, names: hit.filter((place) => place[3] === rank).map((place) => place[2]) }
  })
  const rank = Math.min(...levels.map((one) => one.rank))
  if (rank === Number.POSITIVE_INFINITY) return undefined
  const at = levels.filter((one) => one.rank === rank)
  const collective =
    at.length === COLLECTIVES.length ? 'any collective' : `${listed(at.map(({ level }) => LEVELS[level] as string))} collective`
  // Where the levels differ in which side is stopped, those of the first are named, and none that holds for some only.
  const common = (at[0] as (typeof at)[number]).names.filter((name) => at.every(({ names }) => names.includes(name as never)))
  if (rank === ELSEWHERE) return { rank, says: `in a part of the cyclic stick at ${collective}` }
  if (common.length > 0) return { rank, says: `${listed(common)} at ${collective}` }
  return { rank, says: at.map(({ level, names }) => `${listed(names)} at ${LEVELS[level]} collective`).join('; ') }
}

/** What a cause does, as the end of a sentence. */
export function causeSays(map: ReachMap, cause: number): string {
  if (cause < REACH_MISSES) return cutSays(cause)
  const k = cause - REACH_MISSES
  const missMm = map.worstMm[k] as number
  return `cannot be reached, for ${partName(map.machine, map.paths[k] as string)} misses by up to ${missMm.toFixed(missMm < 1 ? 2 : 1)} mm`
}

function cutSays(code: number): string {
  const outputs = [1, 2, 3].filter((output) => code & (1 << (output - 1))).map(String)
  return outputs.length === 1
    ? `output ${outputs[0]} is cut off by its limit`
    : `outputs ${listed(outputs)} are cut off by their limits`
}

/** One place of the map: where the sticks are, and what is so there. */
export function placeSays(map: ReachMap, n: number): string {
  const { side } = map
  const inMap = n % (side * side)
  const part = (stick: number, plus: string, minus: string): string => {
    const percent = Math.round(100 * Math.abs(stick))
    return percent === 0 ? 'centred' : `${percent}\u00a0% ${stick > 0 ? plus : minus}`
  }
  const elevator = part(stickAt(Math.floor(inMap / side), side), 'forward', 'back')
  const aileron = part(stickAt(inMap % side, side), 'right', 'left')
  const code = map.codes[n] as number
  const level = LEVELS[Math.floor(n / (side * side))] as string
  return `Elevator ${elevator}, aileron ${aileron}, ${level} collective: ${code === 0 ? 'free' : causeSays(map, code)}.`
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
