// How past plans came out, as the server tells it. Levels; shares from 0 to 1.
import type { Eye } from './drill'
export interface Tally {
  name: string
  count: number
  held: number
  mean_miss_levels: number
  sd_miss_levels: number
  mean_width_levels: number
}
export interface Outcome {
  visit: string
  at: string
  zone: string
  low: number
  likely: number
  high: number
  found: number
  held: boolean
}
export interface Evidence {
  from: string
  all: Tally
  by_zone: Tally[]
  by_start_level: Tally[]
  by_reader: Tally[]
  by_shade: Tally[]
  moved: { name: string; sentence: string; practice?: number; practice_share?: number }[]
  eyes: Eye[]
  advice: string
  next: { name: string; sentence: string; doubt_levels: number; share_off: number }[]
  outcomes: Outcome[]
}
/** Fewer zones than this say little about a share of 8 in 10: at 10 its own doubt is ±1.3 in 10
 *  (binomial, 1 sd). */
export const kFew = 10
/** An average miss below this is no lean [levels]: a tenth, finer than anybody reads. */
export const kRight = 0.1

/** The ends of the axes of a plot: whole levels round all that is to be shown. */
export function rangeOf(outcomes: readonly Outcome[]): [number, number] {
  const all = outcomes.flatMap((one) => [one.low, one.high, one.found])
  if (!all.length) return [1, 10]
  const low = Math.max(1, Math.floor(Math.min(...all)))
  const high = Math.min(10, Math.ceil(Math.max(...all)))
  return low < high ? [low, high] : [low - 1, high]
}
