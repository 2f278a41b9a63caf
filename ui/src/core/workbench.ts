// A strand on the workbench: what its steppers say, and what the server is asked for it.
import type { Chart, Finding, Paint } from './types'

export interface Bench {
  canvas: number // level it starts from
  strand_um: number
  length_cm: number
  strength: number // hydrogen peroxide of the developer [% by mass]
  parts: number // of developer to one of lightener
  thinning: number // shampoo in the mix [% by mass]
  minutes: number
  cover: boolean
  water: number // held by damp hair [g per g]
  tone: string // of the colour that follows; empty: none
  depth: number // its level
  colour_min: number
}

export const kBench: Bench = {
  canvas: 3,
  strand_um: 74,
  length_cm: 20,
  strength: 6,
  parts: 2,
  thinning: 0,
  minutes: 35,
  cover: false,
  water: 0,
  tone: '',
  depth: 6,
  colour_min: 20
}

const kLightener_g = 10
const kRowMin = 5
/** Hypotheses: enough for a band while a slider is dragged; a plan takes twice as many. */
const kMembers = 256
const kShade_g = 30
const kShadeDeveloperPercent = 3 // of a demi colour; common practice, no source
const kShadeParts = 1.5

/** Grams of each part of the lightening mix: the lightener, its developer, and what thins them. */
export function partsOf(bench: Bench): { kind: string; grams: number; peroxide_percent?: number }[] {
  const developer = kLightener_g * bench.parts
  const share = bench.thinning / 100
  const shampoo = ((kLightener_g + developer) * share) / (1 - share)
  return [
    { kind: 'lightener', grams: kLightener_g },
    { kind: 'developer', grams: developer, peroxide_percent: bench.strength },
    ...(shampoo > 0 ? [{ kind: 'shampoo', grams: Number(shampoo.toFixed(2)) }] : [])
  ]
}

export function requestOf(bench: Bench, columns: number, rows: number, lifted: boolean): unknown {
  return {
    lift: {
      hair: { level: bench.canvas, strand_um: bench.strand_um },
      applications: [
        {
          parts: partsOf(bench),
          minutes: bench.minutes,
          covered: bench.cover,
          water_held_g_per_g: bench.water
        }
      ],
      every_min: kRowMin,
      members: kMembers
    },
    length_cm: bench.length_cm,
    columns,
    rows,
    lifted,
    ...(bench.tone
      ? {
          colour: {
            class: 'demi',
            colours: [{ grams: kShade_g, level: bench.depth, tone: bench.tone }],
            developer: { grams: kShade_g * kShadeParts, peroxide_percent: kShadeDeveloperPercent },
            minutes: bench.colour_min,
            members: kMembers
          }
        }
      : {})
  }
}

export interface LiftRow {
  minute_total: number
  level: number
  level_low: number
  level_high: number
  wear: number
  paint: Paint
}
export interface ColourRow {
  minute: number
  level: number
  level_low: number
  level_high: number
  words: string
  paint: Paint
  paint_low?: Paint
  paint_high?: Paint
}
export interface BenchAnswer {
  series: LiftRow[]
  bowls: { peroxide_percent?: number }[]
  refusals?: Finding[]
  cautions?: Finding[]
  end: { paint: Paint; paint_low: Paint; paint_high: Paint }
  chart: Chart
  colour?: { series: ColourRow[]; refusals?: Finding[]; cautions?: Finding[] }
}

/** Of the share of cystine that a house lets chemistry use up in the life of a fibre [%]. */
const kWearLimit = 0.4
export const wearPercent = (wear: number): number => Math.round((wear / kWearLimit) * 100)

/** In what two benches differ, by the name of the stepper. */
export const differences = (a: Bench, b: Bench): (keyof Bench)[] =>
  (Object.keys(a) as (keyof Bench)[]).filter((key) => a[key] !== b[key])
