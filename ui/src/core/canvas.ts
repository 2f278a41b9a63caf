// The canvas: the hair as it is when a colour bowl is about to open. It is read dry after the last
// bowl that lifted was rinsed.
import type { Course, Fact, Visit } from './types'

const kColours = new Set(['deposit', 'tone', 'gloss', 'fill'])

/** Moment of the last rinse of this visit; null: nothing was rinsed. */
export function lastRinse(facts: Fact[]): number | null {
  const moments = facts.filter((one) => one.kind === 'rinse').map((one) => Date.parse(one.at ?? ''))
  return moments.length ? Math.max(...moments) : null
}

/** Zones read dry since the last rinse. */
export function readSince(facts: Fact[], rinse: number): Set<string> {
  return new Set(
    facts
      .filter(
        (one) =>
          one.kind === 'reading' &&
          (one.body['seen'] ?? 'dry') === 'dry' &&
          Date.parse(one.at ?? '') >= rinse
      )
      .map((one) => String(one.body['zone']))
  )
}

/** Whether a bowl may be opened as far as the canvas goes: only a colour after a lift asks for it. */
export function canvasRead(visit: Visit, course: Course | undefined, index: number): boolean {
  const bowl = course?.bowls[index]
  if (!course || !bowl || !kColours.has(bowl.purpose)) return true
  const lifts = course.bowls.slice(0, index).some((one) => one.purpose === 'lift')
  if (!lifts) return true
  const rinse = lastRinse(visit.facts)
  if (rinse === null) return false
  const read = readSince(visit.facts, rinse)
  return bowl.zones.every((zone) => read.has(zone.zone))
}
