// What somebody tells on the telephone, as a head that can be planned, and the range that comes of it.
import type { Case, Course, Plan } from './types'

export interface Told {
  length_cm: number
  level: number
  white: number // [%]
  lightened: number // times
  coloured: number // permanent colours
}

const kRegrowthCm = 2
const kAdult = 30
const kWantedHour = 'T10:00:00'

/** A head of roots and lengths; the past lies on the lengths. Short hair is one zone. */
export function toldHead(told: Told, wish: Case): Case {
  const readings = [{ level: told.level }]
  const white = told.white > 0 ? { white_percent: told.white } : {}
  const past = {
    ...(told.lightened ? { lightened: told.lightened } : {}),
    ...(told.coloured ? { permanent_colours: told.coloured } : {})
  }
  const split = Math.min(kRegrowthCm, told.length_cm / 2)
  return {
    // An adult of whom nothing is known yet: consent and tests stand against the courses as drafts.
    person: { age_years: kAdult, consent: 'not_asked' },
    ...(wish.target ? { target: wish.target } : {}),
    zones: [
      { name: 'roots', from_cm: 0, to_cm: split, readings, ...white },
      {
        name: 'lengths',
        from_cm: split,
        to_cm: told.length_cm,
        readings,
        ...white,
        ...(Object.keys(past).length ? { past } : {})
      }
    ]
  }
}

/** The same, asked now for a day on the server's clock; a day that is over counts as now. */
export function askedBy(head: Case, now: string, day: string): Case {
  const zone = now.match(/(Z|[+-]\d\d:?\d\d)$/)?.[1] ?? 'Z'
  const wanted = day + kWantedHour + zone
  const later = Date.parse(wanted) > Date.parse(now)
  return { ...head, asked_at: now, visit_at: later ? wanted : now }
}

export interface Range {
  minutes_low: number
  minutes_high: number
  cost_low: number
  cost_high: number
  visits_low: number
  visits_high: number
}

/** Over every course that nothing forbids for good; a missing test or consent can still come. */
export function rangeOf(plan: Plan): Range | null {
  const open = (course: Course) => !course.refusals.some((one) => one.kind === 'never')
  if (plan.refusals.some((one) => one.kind === 'never')) return null
  const ways = plan.courses.filter(open)
  if (!ways.length) return null
  const least = (of: (course: Course) => number) => Math.min(...ways.map(of))
  const most = (of: (course: Course) => number) => Math.max(...ways.map(of))
  return {
    minutes_low: least((one) => one.minutes_low),
    minutes_high: most((one) => one.minutes_high),
    cost_low: least((one) => one.cost_low),
    cost_high: most((one) => one.cost_high),
    visits_low: least((one) => one.visits),
    visits_high: most((one) => one.visits)
  }
}
