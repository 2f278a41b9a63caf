// What happened, as the book takes it. The bowl's name is how a pour, a zone and the plan find each
// other: "lift 1" is the first bowl of the plan that lifts.
import type { Case, Course, Fact, Lab, PlanBowl } from './types'

type Body = Record<string, unknown>
export const fact = (kind: string, body: Body, at?: string): Fact =>
  at ? { kind, at, body } : { kind, body }

/** Bowls of today, with their place in the plan. */
export function bowlsToday(course: Course | undefined): { bowl: PlanBowl; index: number }[] {
  return (course?.bowls ?? [])
    .map((bowl, index) => ({ bowl, index }))
    .filter(({ bowl }) => bowl.visit === 1)
}
export const bowlName = (index: number): string => String(index + 1)

export interface Read {
  zone: string
  level?: number
  lab?: Lab
  reader?: string
  tone?: string
  seen?: string
}

/** Tones that a reading may name; others stay in the words. */
export const readingFact = (
  when: 'before' | 'check' | 'finish',
  read: Read,
  minute?: number,
  at?: string
): Fact =>
  fact(
    'reading',
    {
      zone: read.zone,
      when,
      ...(minute === undefined ? {} : { minute: Math.max(0, Math.round(minute)) }),
      ...(read.level === undefined ? {} : { level: read.level }),
      ...(read.lab ? { lab: read.lab } : {}),
      ...(read.reader ? { reader: read.reader } : {}),
      ...(read.tone ? { tone: read.tone } : {}),
      seen: read.seen ?? 'dry'
    },
    at
  )

/** The readings of the start of a visit as facts, so that the record holds who saw what. */
export const readingsBefore = (head: Case): Fact[] =>
  head.zones.flatMap((zone) => {
    const read = zone.readings[0]
    const what = { zone: zone.name, seen: read?.state ?? 'dry' }
    if (read?.lab) return [readingFact('before', { ...what, lab: read.lab, reader: read.by ?? 'instrument' })]
    return read?.level === undefined ? [] : [readingFact('before', { ...what, level: read.level })]
  })

export const pourFact = (bowl: string, product: string, grams: number, at?: string): Fact =>
  fact('pour', { bowl, product, grams }, at)

/** The chosen course of a stored plan; the first where none was chosen. */
export function chosen(courses: Course[] | undefined, course: unknown): Course | undefined {
  const n = typeof course === 'number' && course > 0 ? course - 1 : 0
  return courses?.[n]
}
