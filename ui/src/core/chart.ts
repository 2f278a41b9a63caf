// Where things stand on a strand chart. Time runs at full length while chemistry works and is
// folded for the rest, so a minute is found by the chart's own axis.
import { clamp } from './numbers'
import type { Chart } from './types'

/** Bytes of base64 text. */
export function bytesOf(text: string): Uint8Array {
  const raw = atob(text)
  const bytes = new Uint8Array(raw.length)
  for (let i = 0; i < raw.length; ++i) bytes[i] = raw.charCodeAt(i)
  return bytes
}

/** Three bytes a point become four, opaque. */
export function withAlpha(rgb: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const out = new Uint8ClampedArray((rgb.length / 3) * 4)
  for (let i = 0, o = 0; i + 2 < rgb.length; i += 3, o += 4) {
    out[o] = rgb[i]!
    out[o + 1] = rgb[i + 1]!
    out[o + 2] = rgb[i + 2]!
    out[o + 3] = 255
  }
  return out
}

function along(x: number, from: number[], to: number[]): number {
  const last = from.length - 1
  if (last < 0) return 0
  if (x <= from[0]!) return to[0]!
  for (let i = 1; i <= last; ++i) {
    if (x > from[i]!) continue
    const span = from[i]! - from[i - 1]!
    const part = span > 0 ? (x - from[i - 1]!) / span : 1
    return to[i - 1]! + part * (to[i]! - to[i - 1]!)
  }
  return to[last]!
}

/** Share of the width at which a minute stands [0 to 1]. */
export const acrossAt = (chart: Chart, minute: number): number =>
  along(minute, chart.axis.map((knot) => knot.minute), chart.axis.map((knot) => knot.across))
export const minuteAt = (chart: Chart, across: number): number =>
  along(across, chart.axis.map((knot) => knot.across), chart.axis.map((knot) => knot.minute))

/** Share of the height at which a distance from the scalp stands [0 to 1]. */
export function downAt(chart: Chart, cm: number): number {
  const first = chart.cm[0] ?? 0
  const last = chart.cm.at(-1) ?? 1
  return clamp((cm - first) / (last - first || 1), 0, 1)
}
export function cmAt(chart: Chart, down: number): number {
  const first = chart.cm[0] ?? 0
  const last = chart.cm.at(-1) ?? 1
  return first + clamp(down, 0, 1) * (last - first)
}

/** From and to of a band [cm]; its first and last rows stand on its borders. */
export function bandCm(chart: Chart, band: Chart['bands'][number]): [number, number] {
  return [chart.cm[band.first_row] ?? 0, chart.cm[band.first_row + band.rows - 1] ?? 0]
}

export interface Touched { minute: number; cm: number; level: number; zone: string }

/** What lies under a finger. */
export function touched(chart: Chart, across: number, down: number): Touched {
  const cm = cmAt(chart, down)
  let row = 0
  for (let r = 1; r < chart.rows; ++r) {
    if (Math.abs((chart.cm[r] ?? 0) - cm) < Math.abs((chart.cm[row] ?? 0) - cm)) row = r
  }
  const column = clamp(Math.round(across * (chart.columns - 1)), 0, chart.columns - 1)
  const band = chart.bands.find((one) => row >= one.first_row && row < one.first_row + one.rows)
  return {
    minute: minuteAt(chart, clamp(across, 0, 1)),
    cm,
    level: chart.level[row * chart.columns + column] ?? 0,
    zone: band?.zone ?? ''
  }
}

/** The darkest level at which shadows should be lifted: below L* 26, which is level 4.2. */
export const kShadowLevel = 4.2
export const isShadowy = (chart: Chart): boolean => {
  const dark = chart.level.filter((one) => one < kShadowLevel).length
  return dark > chart.level.length * 0.2
}

/** Minutes for ticks: each quarter hour at full length, each hour where time is folded. */
export function ticks(chart: Chart, least: number): number[] {
  const end = chart.axis.at(-1)?.minute ?? 0
  const out: number[] = []
  let last = -Infinity
  for (let minute = 0; minute <= end; minute += 15) {
    const at = acrossAt(chart, minute)
    if (at - last < least) continue
    out.push(minute)
    last = at
  }
  return out
}

/** Labels that would stand on each other are left out, the first come stays. */
export function spaced<T>(items: T[], at: (item: T) => number, least: number): T[] {
  const kept: T[] = []
  for (const item of items) {
    if (kept.every((other) => Math.abs(at(other) - at(item)) >= least)) kept.push(item)
  }
  return kept
}
