// The head as it is read: changes to a case that keep it one that can be planned. Zones touch each
// other from the scalp to the ends; each function gives a new case and leaves the old one alone.
import { clamp, toStep } from './numbers'
import type { Case, CaseZone, StretchWord, ZoneFacts } from './types'

export const kLeastZoneCm = 0.5
export const kMostCm = 200
/** Of a head; house rule, no source: more cannot be told apart at the chair. */
export const kMostZones = 12
const kUmPerCm = 1e4
const kDaysPerMonth = 365.25 / 12
/** The section of what is not read apart. */
export const kRest = 'rest'
const kUsualGrowthUm = 256 // per day; the program's own default

export const growthPerMonth = (head: Case): number =>
  ((head.habits?.growth_um_per_day ?? kUsualGrowthUm) * kDaysPerMonth) / kUmPerCm

/** Months since a point of the strand left the scalp. */
export const monthsAt = (head: Case, cm: number): number => cm / growthPerMonth(head)

export const sectionsOf = (head: Case): string[] => [
  ...new Set(head.zones.map((zone) => zone.section ?? ''))
]
export const zonesIn = (head: Case, section: string): CaseZone[] =>
  head.zones.filter((zone) => (zone.section ?? '') === section)

export const lengthOf = (zones: CaseZone[]): number => zones.at(-1)?.to_cm ?? 0

export const levelOf = (zone: CaseZone): number | undefined => zone.readings[0]?.level

export function newCase(): Case {
  const zone = (name: string, from_cm: number, to_cm: number): CaseZone => ({
    name,
    from_cm,
    to_cm,
    readings: [{ level: 3 }]
  })
  return { zones: [zone('roots', 0, 2), zone('lengths', 2, 15), zone('ends', 15, 20)] }
}

function changed(head: Case, name: string, change: (zone: CaseZone) => CaseZone): Case {
  return { ...head, zones: head.zones.map((zone) => (zone.name === name ? change(zone) : zone)) }
}

export const withZone = (head: Case, name: string, part: Partial<CaseZone>): Case =>
  changed(head, name, (zone) => ({ ...zone, ...part }))

export function withFacts(head: Case, name: string, part: Partial<ZoneFacts>): Case {
  return changed(head, name, (zone) => ({ ...zone, facts: { ...zone.facts, ...part } }))
}

/** A level read by eye, dry unless said; what an instrument or a photo read there is replaced. */
export const withLevel = (head: Case, name: string, level: number): Case =>
  changed(head, name, (zone) => ({
    ...zone,
    readings: [{ level, ...(zone.readings[0]?.state ? { state: zone.readings[0].state } : {}) }]
  }))

/** Five strands at three places, as the rule asks (house rule). */
export const withStretch = (head: Case, names: string[], worst: StretchWord): Case =>
  names.reduce(
    (now, name) =>
      withFacts(now, name, {
        stretch: worst === 'not_tested' ? { worst } : { worst, strands: 5, places: 3 }
      }),
    head
  )

/** Moves the far end of a zone; its neighbour gives or takes, the last zone changes the length. */
export function withBorder(head: Case, name: string, to_cm: number): Case {
  const mine = head.zones.find((zone) => zone.name === name)
  if (!mine) return head
  const zones = zonesIn(head, mine.section ?? '')
  const next = zones[zones.indexOf(mine) + 1]
  const most = next ? next.to_cm - kLeastZoneCm : kMostCm
  const at = clamp(toStep(to_cm, 0.1), mine.from_cm + kLeastZoneCm, most)
  return {
    ...head,
    zones: head.zones.map((zone) => {
      if (zone === mine) return { ...zone, to_cm: at }
      if (zone === next) return { ...zone, from_cm: at }
      return zone
    })
  }
}

export const freeName = (head: Case, wanted: string): string => {
  const taken = new Set(head.zones.map((zone) => zone.name))
  if (!taken.has(wanted)) return wanted
  for (let n = 2; ; ++n) if (!taken.has(`${wanted} ${n}`)) return `${wanted} ${n}`
}

/** Cuts a zone in half; the far half is read like the near one until somebody says otherwise. */
export function splitZone(head: Case, name: string): Case {
  const at = head.zones.findIndex((zone) => zone.name === name)
  const zone = head.zones[at]
  if (!zone || zone.to_cm - zone.from_cm < 2 * kLeastZoneCm || head.zones.length >= kMostZones) return head
  const middle = clamp(
    toStep((zone.from_cm + zone.to_cm) / 2, 0.5),
    zone.from_cm + kLeastZoneCm,
    zone.to_cm - kLeastZoneCm
  )
  const far: CaseZone = structuredClone({
    ...zone,
    name: freeName(head, `lower ${zone.name}`),
    from_cm: middle
  })
  const zones = [...head.zones]
  zones.splice(at, 1, { ...zone, to_cm: middle }, far)
  return { ...head, zones }
}

/** Joins a zone to its neighbour towards the scalp (the first one to its neighbour below). */
export function dropZone(head: Case, name: string): Case {
  const mine = head.zones.find((zone) => zone.name === name)
  if (!mine) return head
  const zones = zonesIn(head, mine.section ?? '')
  if (zones.length < 2) return head
  const at = zones.indexOf(mine)
  const heir = at > 0 ? zones[at - 1] : zones[at + 1]
  return {
    ...head,
    zones: head.zones
      .filter((zone) => zone !== mine)
      .map((zone) =>
        zone === heir
          ? {
              ...zone,
              from_cm: Math.min(zone.from_cm, mine.from_cm),
              to_cm: Math.max(zone.to_cm, mine.to_cm)
            }
          : zone
      )
  }
}

/** Reads a section apart from the rest: it starts as a copy of the first section. */
export function addSection(head: Case, section: string): Case {
  const sections = sectionsOf(head)
  const first = sections[0] ?? ''
  if (sections.includes(section) || section === kRest) return head
  const copies = zonesIn(head, first)
  if (head.zones.length + copies.length > kMostZones) return head
  const bare = (zone: CaseZone) =>
    first && zone.name.startsWith(first + ' ') ? zone.name.slice(first.length + 1) : zone.name
  // A head with sections names all of them, so the zones so far become "the rest".
  const rest = first || kRest
  const others = head.zones.filter((zone) => (zone.section ?? '') !== first)
  const now = { ...head, zones: others }
  for (const into of [rest, section]) {
    for (const zone of copies) {
      const name = freeName(now, `${into} ${bare(zone)}`)
      now.zones = [...now.zones, structuredClone({ ...zone, name, section: into })]
    }
  }
  // The sections keep their order, the new one comes last.
  const order = [rest, ...sections.slice(1), section]
  const placed = order.flatMap((one) => now.zones.filter((zone) => zone.section === one))
  return { ...head, zones: placed }
}

/** The section is read with the rest again; a lone rest loses its name. */
export function dropSection(head: Case, section: string): Case {
  const left = head.zones.filter((zone) => (zone.section ?? '') !== section)
  if (left.length === 0) return head
  const names = [...new Set(left.map((zone) => zone.section ?? ''))]
  const only = names[0] ?? ''
  if (names.length > 1 || only !== kRest) return { ...head, zones: left }
  return {
    ...head,
    zones: left.map(({ section: _, ...zone }) => ({
      ...zone,
      name: zone.name.startsWith(kRest + ' ') ? zone.name.slice(kRest.length + 1) : zone.name
    }))
  }
}

/** What still has to be said before this head can be planned; empty when nothing. */
export function missing(head: Case): ('target' | 'stretch')[] {
  const out: ('target' | 'stretch')[] = []
  const wished = head.target ?? head.wished_level ?? head.zones.some((zone) => zone.target)
  if (!wished) out.push('target')
  const untested = (zone: CaseZone) =>
    (zone.facts?.stretch?.worst ?? 'not_tested') === 'not_tested'
  if (head.zones.some(untested)) out.push('stretch')
  return out
}
