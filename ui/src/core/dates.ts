// Days as the language of the page writes them. The day is the one the server wrote, whatever the
// tablet's zone.
import { words } from '../words'
import { dayOf, wallTime } from './clock'

const as = (moment: string, shape: Intl.DateTimeFormatOptions): string => {
  const day = dayOf(moment)
  const noon = new Date(`${day}T12:00:00Z`)
  if (Number.isNaN(noon.getTime())) return day
  return new Intl.DateTimeFormat(words.locale, { ...shape, timeZone: 'UTC' }).format(noon)
}

/** "14 May 2025" */
export const shortDay = (moment: string): string =>
  as(moment, { day: 'numeric', month: 'short', year: 'numeric' })

/** "14 May 2025 14:05" */
export const shortMoment = (moment: string): string =>
  `${shortDay(moment)} ${wallTime(moment)}`.trim()

/** "Wednesday 14 May", as a heading. */
export function titleDay(day: string): string {
  const said = as(day, { weekday: 'long', day: 'numeric', month: 'long' })
  return said.slice(0, 1).toLocaleUpperCase(words.locale) + said.slice(1)
}
