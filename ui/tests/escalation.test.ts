import { describe, expect, it } from 'vitest'
import { alarmOf, checksDue, loudness, newlyDue } from '../src/core/escalation'
import type { RunZone } from '../src/core/types'

const stop = Date.parse('2025-05-14T10:45:00Z')
const zone = (part: Partial<RunZone> = {}): RunZone => ({
  zone: 'roots',
  state: 'on',
  hard_stop_at: '2025-05-14T10:45:00Z',
  ...part
})
const at = (seconds: number, part: Partial<RunZone> = {}) =>
  alarmOf('v', zone(part), stop + seconds * 1000)

describe('the hard stop', () => {
  it('is silent until two minutes before', () => {
    expect(at(-121)).toBeNull()
    expect(at(-120)?.level).toBe(1)
    expect(at(-1)?.level).toBe(1)
  })
  it('alerts at its moment and grows every 30 s', () => {
    expect(at(0)?.level).toBe(2)
    expect(at(29)?.level).toBe(2)
    expect(at(30)?.level).toBe(3)
    expect(at(95)?.level).toBe(5)
    const levels = [0, 30, 60, 90, 600].map((s) => loudness(at(s)!, true))
    expect([...levels].sort((a, b) => a - b)).toEqual(levels)
    expect(levels.at(-1)).toBe(1)
  })
  it('reaches the other tablets after a minute, not before', () => {
    expect(loudness(at(-60)!, false)).toBe(0)
    expect(loudness(at(59)!, false)).toBe(0)
    expect(loudness(at(60)!, false)).toBeGreaterThan(0)
  })
  it('ends when somebody saw it or the zone is off', () => {
    expect(at(50, { seen: true })).toBeNull()
    for (const state of ['off', 'waits', 'not planned'] as const) {
      expect(at(50, { state })).toBeNull()
    }
    for (const state of ['on', 'check', 'due', 'stop'] as const) {
      expect(at(50, { state })).not.toBeNull()
    }
  })
  it('sounds each step once', () => {
    const heard = new Map<string, number>()
    expect(newlyDue(at(0)!, heard)).toBe(true)
    expect(newlyDue(at(10)!, heard)).toBe(false)
    expect(newlyDue(at(31)!, heard)).toBe(true)
  })
})

describe('a check', () => {
  it('chimes once, softly, when it comes due', () => {
    const chimed = new Set<string>()
    const zones = [zone({ next_check_at: '2025-05-14T10:20:00Z' })]
    const due = Date.parse('2025-05-14T10:20:00Z')
    expect(checksDue('v', zones, due - 1000, chimed)).toEqual([])
    expect(checksDue('v', zones, due, chimed)).toEqual(['roots'])
    expect(checksDue('v', zones, due + 60_000, chimed)).toEqual([])
    zones[0]!.next_check_at = '2025-05-14T10:25:00Z'
    expect(checksDue('v', zones, due + 300_000, chimed)).toEqual(['roots'])
  })
})
