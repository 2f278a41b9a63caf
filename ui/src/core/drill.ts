// The drill for the eye, as the server tells it. Levels.
import type { Paint } from './types'

export interface Span {
  low: number
  likely: number
  high: number
}
export interface Eye {
  reader: string
  count: number
  offset: Span
  spread: Span
  by_depth: { depth: string; count: number; offset: Span }[]
  depth_matters: boolean
  told: string[]
}
export interface Strand {
  seed: number
  paint: Paint
}
export interface Eyes {
  eyes: Eye[]
  advice: string
}
export interface Answered extends Eyes {
  shown: { level: number; warmth: string; words: string }
}

/** Levels that may be answered: halves. */
export const kAnswers: readonly number[] = Array.from({ length: 19 }, (_, i) => 1 + i / 2)

/** The nearest answer to what was shown counts as right. */
export const isRight = (shown: number, answer: number): boolean => Math.abs(answer - shown) <= 0.25

/** Another seed each time, small enough for a number of JSON. */
export const freshSeed = (): number => crypto.getRandomValues(new Uint32Array(1))[0] ?? 0

/** Who may read: this device's own name first, then the salon's people. */
export const readers = (device: string, people: readonly string[] = []): string[] => [
  ...new Set([device, ...people].filter(Boolean))
]
