import { describe, expect, it } from 'vitest'
import { askedBy, rangeOf, toldHead } from '../src/core/enquiry'
import { rangeOf as axisOf, type Outcome } from '../src/core/evidence'
import { coilOf, linearOf } from '../src/core/tress'
import { differences, kBench, partsOf, requestOf } from '../src/core/workbench'
import type { Plan } from '../src/core/types'

const course = (minutes: number, cost: number, kind?: 'never' | 'not_until') => ({
  minutes_low: minutes - 10,
  minutes_high: minutes + 20,
  cost_low: cost,
  cost_high: cost + 30,
  visits: 1,
  refusals: kind ? [{ id: 'x', kind, text: '' }] : []
})

describe('an enquiry', () => {
  const told = { length_cm: 30, level: 3, white: 20, lightened: 1, coloured: 0 }
  it('is a head whose past lies on the lengths', () => {
    const head = toldHead(told, { zones: [], target: { look: 'copper' } })
    expect(head.zones.map((zone) => [zone.from_cm, zone.to_cm])).toEqual([[0, 2], [2, 30]])
    expect(head.zones[0]?.past).toBeUndefined()
    expect(head.zones[1]?.past).toEqual({ lightened: 1 })
    expect(toldHead({ ...told, length_cm: 3 }, { zones: [] }).zones[0]?.to_cm).toBe(1.5)
  })
  it('asks for a day to come, or for now', () => {
    const now = '2025-05-14T09:00:00+02:00'
    expect(askedBy({ zones: [] }, now, '2025-05-20').visit_at).toBe('2025-05-20T10:00:00+02:00')
    expect(askedBy({ zones: [] }, now, '2025-05-01').visit_at).toBe(now)
  })
  it('spans the ways that nothing forbids for good', () => {
    const plan = { refusals: [], courses: [course(100, 80), course(200, 150, 'not_until'), course(999, 999, 'never')] }
    expect(rangeOf(plan as unknown as Plan)).toEqual({
      minutes_low: 90, minutes_high: 220, cost_low: 80, cost_high: 180, visits_low: 1, visits_high: 1
    })
    expect(rangeOf({ refusals: [], courses: [course(9, 9, 'never')] } as unknown as Plan)).toBeNull()
    expect(rangeOf({ refusals: [{ id: 'x', kind: 'never', text: '' }], courses: [course(9, 9)] } as unknown as Plan)).toBeNull()
  })
})

describe('the workbench', () => {
  it('thins by share of the whole mix', () => {
    const parts = partsOf({ ...kBench, parts: 2, thinning: 25 })
    const whole = parts.reduce((sum, part) => sum + part.grams, 0)
    expect(parts.at(-1)?.kind).toBe('shampoo')
    expect((parts.at(-1)?.grams ?? 0) / whole).toBeCloseTo(0.25, 3)
    expect(partsOf(kBench)).toHaveLength(2)
  })
  it('asks for a colour only where one is chosen', () => {
    expect(requestOf(kBench, 10, 10, false)).not.toHaveProperty('colour')
    expect(requestOf({ ...kBench, tone: 'copper' }, 10, 10, false)).toHaveProperty('colour.colours')
  })
  it('says in what two courses differ', () => {
    expect(differences(kBench, { ...kBench, strength: 9, cover: true })).toEqual(['strength', 'cover'])
  })
})

describe('the picture of a tress', () => {
  it('takes colours to linear light', () => {
    // IEC 61966-2-1: 0.5 encoded (128/255 = 0.50196) is 0.2159 in linear light
    expect(linearOf('#ffffff')).toEqual([1, 1, 1])
    expect(linearOf('#800000')[0]).toBeCloseTo(0.2159, 3)
  })
  it('coils as much as the hair shrinks', () => {
    for (const shrinkage of [0, 0.2, 0.5, 0.8]) {
      const { turns, radius } = coilOf(shrinkage)
      // The length of a helix of height 1: what is kept of it is 1 over that length.
      const long = Math.sqrt(1 + (2 * Math.PI * turns * radius) ** 2)
      expect(1 / long).toBeCloseTo(1 - shrinkage, 6)
    }
  })
})

describe('evidence', () => {
  it('frames all that is shown in whole levels', () => {
    const one = { low: 5.2, likely: 5.6, high: 6.1, found: 4.4 } as Outcome
    expect(axisOf([one])).toEqual([4, 7])
    expect(axisOf([])).toEqual([1, 10])
  })
})
