// At the chair: a first plan, a whole visit, two tablets, mishaps.
import assert from 'node:assert/strict'
import { kSizes, plannedVisit, putOn, testedClient } from './world.mjs'

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
  assert.ok(seconds < 120, `${seconds} s`)
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
  // The first product exactly, the second too much, the rest re-balanced.
  await d.tap(/ g in$/)
  await d.page.getByRole('button', { name: /^Undo/ }).waitFor()
  const items = course.bowls[0].items
  if (items.length > 1) {
    const scale = d.page.getByLabel('Grams on the scale, g')
    await d.page.waitForFunction(
      (first) => !document.querySelector('.product')?.textContent?.includes(first),
      await d.page.locator('.items li').first().locator('span').textContent()
    )
    await scale.fill(String(Math.round(items[1].grams * 1.2)))
    await scale.press('Enter')
    await d.tap(/ g in$/)
    await d.sees('the rest was set anew')
  }
  for (let i = 0; i < 6 && !(await d.page.getByText('The bowl is full').count()); ++i) {
    await d.tap(/ g in$/)
    await d.page.waitForTimeout(500)
  }
  await d.sees('The bowl is full')
  await d.go(`visits/${id}/run`)
  await d.page.getByRole('button', { name: 'On now' }).first().waitFor()
  for (let left = await d.page.getByRole('button', { name: 'On now' }).count(); left > 0; --left) {
    await d.tap('On now')
    await d.page.waitForTimeout(700)
  }
  await d.sees('next look')
  // A check of all zones: as expected is one tap, a neighbour tile and the rest two.
  d.taps = 0
  await d.tap('All as expected')
  const checkTaps = d.taps
  assert.ok(checkTaps <= 2)
  await d.page.getByRole('button', { name: /^Undo/ }).click()
  await d.tap(d.page.getByRole('group', { name: /A look at the hair/ }).first().getByRole('button').first())
  const sent = Date.now()
  await d.page.evaluate(() => window.dispatchEvent(new Event('pagehide')))
  await d.sees('What changed')
  const replanned = Date.now() - sent
  assert.ok(replanned < 5000, `${replanned} ms from the check to the new plan`)
  // Off the hair, the canvas, the colour bowl.
  for (let left = await d.page.getByRole('button', { name: 'Rinsed off' }).count(); left > 0; --left) {
    await d.tap('Rinsed off')
    await d.page.waitForTimeout(500)
  }
  await d.page.evaluate(() => window.dispatchEvent(new Event('pagehide')))
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

/** Two tablets on one visit, a reload, a killed server. */
async function twoTablets(world) {
  const client = await testedClient(world.owner, 'Tove Lind')
  const { id } = await plannedVisit(world.owner, client)
  const a = await world.device('tablet A', 'colourist', kSizes.wide)
  const b = await world.device('tablet B', 'assistant', kSizes.tablet)
  await a.go(`visits/${id}/run`)
  await b.go(`visits/${id}/run`)
  await a.tap('On now')
  await a.page.getByRole('button', { name: /^Undo/ }).waitFor()
  await a.page.reload() // leaving the page confirms what was done
  await a.sees('next look')
  await b.sees('next look')
  const timer = (device) => device.page.getByRole('timer').first().textContent()
  const seconds = (text) => text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0)
  const apart = Math.abs(seconds(await timer(a)) - seconds(await timer(b)))
  assert.ok(apart <= 1, `${apart} s apart`)
  // Nothing is asked again and again while nothing happens.
  let asked = 0
  const count = () => (asked += 1)
  b.page.on('request', count)
  await b.page.waitForTimeout(3000)
  b.page.off('request', count)
  assert.ok(asked <= 3, `${asked} requests in 3 s of rest`)
  // The server dies; what is entered waits, the deadlines go on; then it is back.
  const faults = [...world.faults]
  await world.kill()
  await a.sees('The server does not answer')
  const before = await timer(a)
  await a.tap('All as expected')
  await a.page.waitForTimeout(1500)
  assert.notEqual(await timer(a), before)
  await world.serve()
  await a.page.getByText('The server does not answer').first().waitFor({ state: 'hidden', timeout: 20_000 })
  await a.page.evaluate(() => window.dispatchEvent(new Event('pagehide')))
  await a.until(async () => {
    const { facts } = await world.owner.api('GET', `/visits/${id}`)
    return facts.some((one) => one.kind === 'reading' && one.body.when === 'check')
  }, 'the check never reached the book')
  world.faults.splice(0, world.faults.length, ...faults)
  await a.context.close()
  await b.context.close()
}

/** The hard stop speaks on every screen until somebody says it was seen. */
async function hardStop(world) {
  const client = await testedClient(world.owner, 'Ida Brand')
  const { id, course } = await plannedVisit(world.owner, client)
  const zone = course.bowls[0].zones[0]
  await putOn(world.owner, id, [zone.zone], Math.ceil(zone.hard_stop_at_min - zone.apply_at_min) + 2)
  const a = await world.device('tablet C', 'colourist', kSizes.tablet)
  await a.go('today')
  await a.sees(`Stop: rinse ${zone.zone} now`)
  await a.go('clients')
  await a.sees(`Stop: rinse ${zone.zone} now`)
  await a.tap('I am on it')
  await a.page.getByText(`Stop: rinse ${zone.zone} now`).waitFor({ state: 'hidden' })
  await a.go(`visits/${id}/run`)
  await a.sees('over by')
  await a.tap('Pain or burning')
  await a.sees('Rinse at once, long and cool')
  await a.sees('trouble breathing: call 112 first')
  await a.tap('crown')
  await a.tap('Rinsed; back to the visit')
  await a.page.getByRole('button', { name: 'Pain or burning' }).waitFor()
  await a.until(async () => {
    const { facts } = await world.owner.api('GET', `/visits/${id}`)
    const pains = facts.filter((one) => one.kind === 'pain')
    const rinsed = facts.some((one) => one.kind === 'rinse' && one.body.why === 'pain')
    return rinsed && pains.at(-1).body.place === 'crown'
  }, 'the pain never reached the book')
  await a.context.close()
}

/** Nine seconds of water on the glass change nothing, and the clock goes on. */
async function wipe(world) {
  const d = world.owner
  await d.go('today')
  await d.tap('Wipe')
  await d.sees('Wipe the screen now')
  await d.page.mouse.click(60, 40)
  await d.page.mouse.click(160, 40)
  assert.match(d.page.url(), /today$/)
  await d.page.getByText('Wipe the screen now').waitFor({ state: 'hidden', timeout: 17_000 })
  await d.link('Shelf').click()
  await d.page.getByRole('heading', { name: 'Shelf' }).waitFor()
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
  const strand = d.page.getByRole('img', { name: /The strand/ })
  const box = await strand.boundingBox()
  const span = 20 * 1.08
  const x = (cm) => box.x + 20 + (cm / span) * (box.width - 40)
  await d.page.mouse.move(x(15), box.y + 60)
  await d.page.mouse.down()
  await d.page.evaluate(() => {
    window.paints = []
    addEventListener('pointermove', (event) => {
      const at = event.timeStamp
      requestAnimationFrame(() => requestAnimationFrame(() => window.paints.push(performance.now() - at)))
    }, { capture: true })
  })
  for (let cm = 15; cm >= 12; cm -= 0.1) await d.page.mouse.move(x(cm), box.y + 60)
  await d.page.mouse.up()
  const ends = Number(await d.page.getByLabel('Ends at, from the scalp, cm').inputValue())
  assert.ok(Math.abs(ends - 12) < 0.3, `dragged to ${ends}`)
  const times = (await d.page.evaluate(() => window.paints)).sort((a, b) => a - b)
  const p95 = times[Math.floor(times.length * 0.95)] ?? 0
  await d.context.close()
  return `input to paint p95 ${p95.toFixed(0)} ms over ${times.length} moves`
}

export const scenarios = [
  ['a newcomer plans a head; a missing skin test gives a draft and no timer', newcomer],
  ['a visit from bowl to finish, and the next one', wholeVisit],
  ['two tablets, a reload, a killed server', twoTablets],
  ['a hard stop and pain', hardStop],
  ['by keyboard and by dragging', byHand],
  ['wiping', wipe]
]
