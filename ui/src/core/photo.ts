// What is read of a photo, taken into a head.
import { kLeastZoneCm, kMostZones, freeName, zonesIn } from './case'
import { toStep } from './numbers'
import type { Case, CaseReading, CaseZone, PhotoZone } from './types'

/** Names along the strand, as many as there are stretches. */
function namesFor(count: number): string[] {
  if (count === 1) return ['lengths']
  const middle = Array.from({ length: count - 2 }, (_, i) => (i === 0 ? 'lengths' : 'lower lengths'))
  return ['roots', ...middle, 'ends']
}

/** The zone of before that a stretch has most of. */
function mostly(zones: CaseZone[], from: number, to: number): CaseZone | undefined {
  const shared = (zone: CaseZone) => Math.min(zone.to_cm, to) - Math.max(zone.from_cm, from)
  return zones.reduce<CaseZone | undefined>(
    (best, one) => (!best || shared(one) > shared(best) ? one : best),
    undefined
  )
}

/** Stretches with their borders on tenths of a centimetre; what is too short joins the one before. */
function cut(zones: PhotoZone[]): { from: number; to: number; reading: CaseReading }[] {
  const out: { from: number; to: number; reading: CaseReading }[] = []
  for (const zone of zones) {
    const to = toStep(zone.to_cm ?? 0, 0.1)
    const last = out.at(-1)
    const from = last?.to ?? 0
    if (last && to - from < kLeastZoneCm) last.to = Math.max(last.to, to)
    else out.push({ from, to: Math.max(to, kLeastZoneCm), reading: zone.reading })
  }
  return out
}

/** The zones of a section set anew from a photo: borders and readings are the photo's, the past and
 *  what was felt stay with the hair. A head that would have too many zones is left as it is. */
export function withPhoto(head: Case, section: string, zones: PhotoZone[]): Case {
  const before = zonesIn(head, section)
  const found = cut(zones)
  const others = head.zones.filter((zone) => (zone.section ?? '') !== section)
  if (!found.length || others.length + found.length > kMostZones) return head
  const named = before.length === found.length ? before.map((zone) => zone.name) : null
  const place = head.zones.findIndex((zone) => (zone.section ?? '') === section)
  const made: CaseZone[] = []
  for (const [i, one] of found.entries()) {
    const old = mostly(before, one.from, one.to)
    const plain = namesFor(found.length)[i] ?? 'lengths'
    const wanted = section ? `${section} ${plain}` : plain
    made.push({
      ...(old ? structuredClone(old) : {}),
      name: named?.[i] ?? freeName({ ...head, zones: [...others, ...made] }, wanted),
      ...(section ? { section } : {}),
      from_cm: one.from,
      to_cm: one.to,
      readings: [one.reading]
    })
  }
  const at = place < 0 ? others.length : place
  return { ...head, zones: [...others.slice(0, at), ...made, ...others.slice(at)] }
}
