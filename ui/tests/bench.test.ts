// The drill and the steps of a past visit: what the page itself decides.
import { describe, expect, it } from 'vitest'
import { freshSeed, isRight, kAnswers, readers } from '../src/core/drill'
import { hasChart, type Step } from '../src/core/replay'

describe('a drill', () => {
  it('takes halves of a level from 1 to 10', () => {
    expect(kAnswers[0]).toBe(1)
    expect(kAnswers.at(-1)).toBe(10)
    expect(kAnswers.every((one) => Number.isInteger(one * 2))).toBe(true)
  })
  it('calls the nearest half right, and no other', () => {
    expect(isRight(5.2, 5)).toBe(true)
    expect(isRight(5.3, 5.5)).toBe(true)
    expect(isRight(5.3, 5)).toBe(false)
    for (let tenth = 20; tenth <= 90; ++tenth) {
      expect(kAnswers.some((one) => isRight(tenth / 10, one))).toBe(true)
    }
  })
  it('draws seeds that a number of JSON holds', () => {
    for (let i = 0; i < 50; ++i) expect(Number.isSafeInteger(freshSeed())).toBe(true)
  })
  it('offers the device first and nobody twice', () => {
    expect(readers('tablet', ['Ines', 'tablet', ''])).toEqual(['tablet', 'Ines'])
    expect(readers('', undefined)).toEqual([])
  })
})

describe('a past visit', () => {
  const step = (kind: string, more: Partial<Step> = {}): Step => ({ kind, readings: 0, ...more })
  it('has a chart from the step in which a course was chosen', () => {
    const steps = [step('asked'), step('planned', { courses: [{ name: 'gloss' }] }), step('bowl')]
    expect(hasChart(steps, 0)).toBe(false)
    expect(hasChart(steps, 1)).toBe(true)
    expect(hasChart(steps, 2)).toBe(true)
    expect(hasChart([step('planned'), step('bowl')], 1)).toBe(false)
  })
})
