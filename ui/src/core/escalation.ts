// How loudly a deadline speaks. A check chimes once. Only the hard stop grows: quiet two minutes
// before, an alert at its moment, then every 30 s louder until somebody says it was seen; other
// tablets join after 60 s. (House rule, no source.)
import type { RunZone } from './types'
import { secondsUntil } from './clock'

export type Sound = 'none' | 'chime' | 'quiet' | 'alert'
export interface Alarm {
  visit: string
  zone: string
  seconds: number // until the hard stop
  level: number // 0: not yet; 1: within two minutes; 2: at it; 3 and on: past it, each 30 s
}

export const kWarnSeconds = 120
export const kRepeatSeconds = 30
export const kOthersAfterSeconds = 60

export function alarmOf(visit: string, zone: RunZone, now_ms: number): Alarm | null {
  if (!['on', 'check', 'due', 'stop'].includes(zone.state) || zone.seen) return null
  const seconds = secondsUntil(zone.hard_stop_at, now_ms)
  if (seconds === null || seconds > kWarnSeconds) return null
  const past = -seconds
  const level = seconds > 0 ? 1 : 2 + Math.floor(past / kRepeatSeconds)
  return { visit, zone: zone.zone, seconds, level }
}

/** Loudness from 0 to 1. mine: this tablet has the visit open. */
export function loudness(alarm: Alarm, mine: boolean): number {
  if (alarm.level < 2) return mine ? 0.15 : 0
  if (!mine && -alarm.seconds < kOthersAfterSeconds) return 0
  return Math.min(1, 0.3 + 0.15 * (alarm.level - 2))
}

/** Whether a sound is due now that was not due at the last look; each step sounds once. */
export function newlyDue(alarm: Alarm, heard: Map<string, number>): boolean {
  const key = `${alarm.visit}/${alarm.zone}`
  if ((heard.get(key) ?? 0) >= alarm.level) return false
  heard.set(key, alarm.level)
  return true
}

/** Zones whose check came due since the last look; each check chimes once. */
export function checksDue(
  visit: string,
  zones: RunZone[],
  now_ms: number,
  chimed: Set<string>
): string[] {
  const due: string[] = []
  for (const zone of zones) {
    const left = secondsUntil(zone.next_check_at, now_ms)
    if (left === null || left > 0 || !['on', 'check', 'due'].includes(zone.state)) continue
    const key = `${visit}/${zone.zone}/${zone.next_check_at}`
    if (chimed.has(key)) continue
    chimed.add(key)
    due.push(zone.zone)
  }
  return due
}
