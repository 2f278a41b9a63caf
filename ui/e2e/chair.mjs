// At the chair: a first plan, a whole visit, and the next.
import assert from 'node:assert/strict'
import { dragBorder } from './measure.mjs'
import { kSizes, plannedVisit, testedClient } from './world.mjs'

const kTapsReturning = 12

/** Somebody who has never seen it plans a head. */
async function newcomer(world) {
  const d = await world.device('tablet of a newcomer', 'colourist', kSizes.tablet, true)
  d.taps = 0
  const start = Date.now()
  await d.go('today')
  await d.tap(d.link('New visit'))
  await d.tap('New client')
  await d.page.getByLabel('Name', { exact: true }).fill('Ana Bell')
  await d.tap('Save')
  await d.tap('New visit now')
  await d.tap('All zones spring back')
  await d.tap('level 2, darkest brown')
  await d.tap('Agrees')
  await d.tap(/Nothing new/)
  await d.tap(d.page.getByRole('button', { name: 'chestnut', exact: true }))
  await d.tap('See the ways')
  await d.page.getByRole('article').first().waitFor()
  await d.page.locator('canvas').first().waitFor()
  const seconds = (Date.now() - start) / 1000
  // Refusals stand before the ways, and the plan ends as every plan ends.
  await d.sees('Not until')
  await d.sees('the licensed professional decides')
  // Oxidative ways are drafts without a skin test: they can be looked at, no bowl opens.
  const draft = d.page.getByRole('article').filter({ hasText: 'Draft' }).first()
  await d.tap('Choose this way', draft)
  await draft.getByRole('button', { name: 'Chosen' }).waitFor()
  const visit = d.page.url().match(/visits\/([^/]+)/)[1]
  await d.go(`visits/${visit}/run`)
  await d.sees('No timer starts')
  assert.equal(await d.page.getByRole('button', { name: 'On now' }).count(), 0)
  await d.go(`visits/${visit}/bowls`)
  await d.sees('No bowl yet')
  await d.context.close()
  return `${d.taps} taps, ${seconds.toFixed(0)} s of machine time`
}

/** From arrival to finish, and the next time. */
async function wholeVisit(world) {
  const d = await world.device('tablet at the window', 'colourist', kSizes.wide)
  const client = await testedClient(world.owner, 'Mira Osei')
  const { id, course } = await plannedVisit(world.owner, client)
  await d.go(`visits/${id}/bowls`)
  const column = d.page.locator('.items')
  const full = d.page.getByText('The bowl is full')
  await column.waitFor()
  while (!(await full.count())) await d.tapTurns(/ g in$/, column)
  await d.go(`visits/${id}/run`)
  await d.page.getByRole('button', { name: 'On now' }).first().waitFor()
  await d.tapAll('On now')
  await d.sees('next look')
  // A check of all zones: as expected is one tap, a neighbour tile and the rest two.
  d.taps = 0
  await d.tap('All as expected')
  const checkTaps = d.taps
  assert.ok(checkTaps <= 2)
  await d.page.getByRole('button', { name: /^Undo/ }).click()
  await d.tap(d.page.getByRole('group', { name: /A look at the hair/ }).first().getByRole('button').first())
  const sent = Date.now()
  await d.send()
  await d.sees('What changed')
  const replanned = Date.now() - sent
  // Off the hair, the canvas, the colour bowl.
  await d.tapAll('Rinsed off')
  await d.send()
  const colour = course.bowls.findIndex((one) => one.purpose !== 'lift' && one.visit === 1)
  if (colour > 0) {
    await d.go(`visits/${id}/bowls/${colour + 1}`)
    await d.sees('Read each zone dry')
    await d.tap(d.link('Read the canvas'))
    await d.tap('These are the levels')
    await d.sees('Next into the bowl')
  }
  d.taps = 0
  const start = Date.now()
  await d.go(`visits/${id}/finish`)
  await d.tap('All as planned')
  await d.tap('The client leaves')
  await d.sees('This visit is finished')
  const finishTaps = d.taps
  const seconds = ((Date.now() - start) / 1000).toFixed(1)

  // She comes back: everything is filled in.
  d.taps = 0
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.sees('Filled in from last time')
  await d.tap('All zones spring back')
  await d.tap(/Nothing new/)
  if (await d.page.getByRole('button', { name: 'Another wish' }).count()) {
    await d.tap('Another wish')
  }
  await d.tap(d.page.getByRole('button', { name: 'mahogany', exact: true }))
  await d.tap('See the ways')
  await d.page.getByRole('article').first().waitFor()
  assert.ok(d.taps <= kTapsReturning, `${d.taps} taps`)
  const returning = d.taps
  await d.context.close()
  return `check ${checkTaps} tap, new plan in ${replanned} ms; finish ${finishTaps} taps, ${seconds} s; returning client read in ${returning} taps`
}

/** A head is read with the keyboard alone, and a border is dragged without delay. */
async function byHand(world) {
  const d = await world.device('laptop', 'colourist', kSizes.laptop)
  const client = await testedClient(world.owner, 'Nora Feld')
  await d.go(`clients/${client}`)
  await d.page.getByRole('button', { name: 'New visit now' }).focus()
  await d.page.keyboard.press('Enter')
  await d.sees('All zones spring back')
  await d.page.getByRole('button', { name: /^lengths/ }).focus()
  await d.page.keyboard.press('Space')
  await d.page.getByRole('button', { name: 'More: White' }).focus()
  await d.page.keyboard.press('Enter')
  assert.equal(await d.page.getByLabel('White, %').inputValue(), '5')
  const paints = await dragBorder(d.page, 15, 12, 0.1)
  const ends = Number(await d.page.getByLabel('Ends at, from the scalp, cm').inputValue())
  assert.ok(Math.abs(ends - 12) < 0.3, `dragged to ${ends}`)
  const times = paints.sort((a, b) => a - b)
  const p95 = times[Math.floor(times.length * 0.95)] ?? 0
  await d.context.close()
  return `input to paint p95 ${p95.toFixed(0)} ms over ${times.length} moves`
}

/** A strand is tested before the head, and the plan is narrower for it. */
async function strandTest(world) {
  const d = await world.device('tablet of the strand', 'colourist', kSizes.tablet)
  const client = await testedClient(world.owner, 'Wilma Roth')
  const { id, course } = await plannedVisit(world.owner, client)
  const zone = course.bowls[0].zones.at(-1).zone
  await d.go(`visits/${id}/plan`)
  await d.tap(d.page.getByText('Strand test', { exact: true }))
  await d.tap('On the strand now')
  await d.page.getByRole('timer').waitFor()
  await d.page.reload() // the minutes go on
  await d.tap(d.page.getByText('Strand test', { exact: true }))
  await d.page.getByRole('timer').waitFor()
  const minutes = d.page.getByLabel('Minutes it was on, min')
  await minutes.fill('25')
  await minutes.press('Enter')
  const level = d.page.getByLabel('Level it came to', { exact: true }).locator('input')
  await level.fill('7')
  await level.press('Enter')
  await d.tap('It passed')
  await d.sees('What the strand changed')
  await d.sees(/stop \d+ min (earlier|later)/)
  const run = await world.owner.api('GET', `/visits/${id}/run`)
  const was = course.bowls[0].zones.find((one) => one.zone === zone)
  const is = run.plan.courses[run.course - 1].bowls[0].zones.find((one) => one.zone === zone)
  assert.ok(is.minutes_high - is.minutes_low < was.minutes_high - was.minutes_low, 'the band is as wide as before')
  await d.context.close()
  return `${zone}: ${was.minutes_low.toFixed(0)}–${was.minutes_high.toFixed(0)} min before, ${is.minutes_low.toFixed(0)}–${is.minutes_high.toFixed(0)} min after`
}

export const scenarios = [
  ['a newcomer plans a head; a missing skin test gives a draft and no timer', newcomer],
  ['a visit from bowl to finish, and the next one', wholeVisit],
  ['a strand test narrows the plan', strandTest],
  ['by keyboard and by dragging', byHand]
]
