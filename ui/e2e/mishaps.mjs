// What goes wrong at the chair: a second tablet, a reload, a sleep, a dead server, too much in the
// bowl, a hard stop, pain, water on the glass.
import assert from 'node:assert/strict'
import { kSizes, plannedVisit, putOn, testedClient } from './world.mjs'

const kApart = 2 // s; each shows whole seconds and looks four times in one

/** Too much in the bowl: the rest is set anew, in the same parts. */
async function overPour(world) {
  const d = await world.device('tablet at the scale', 'colourist', kSizes.tablet)
  const client = await testedClient(world.owner, 'Petra Lang')
  const { id, course } = await plannedVisit(world.owner, client)
  const items = course.bowls[0].items
  assert.ok(items.length > 1, 'the bowl of one product cannot be re-balanced')
  const kTooMuch = 1.3
  const poured = Math.round(items[0].grams * kTooMuch)
  await d.go(`visits/${id}/bowls`)
  const column = d.page.locator('.items')
  await column.waitFor()
  const scale = d.page.getByLabel('Grams on the scale, g')
  await scale.fill(String(poured))
  await scale.press('Enter')
  await d.tapTurns(`${poured} g in`, column)
  await d.sees('the rest was set anew')
  const sums = (await column.locator('strong').allTextContents()).map((text) => Number(text.match(/\/ ([\d.]+)/)[1]))
  assert.equal(sums[0], poured)
  for (let i = 1; i < items.length; ++i) {
    const meant = (items[i].grams * poured) / items[0].grams
    assert.ok(Math.abs(sums[i] - meant) <= 1, `${sums[i]} g of part ${i + 1}, ${meant} g keep the parts`)
  }
  // Taken back, the bowl is as it was planned.
  await d.tapTurns(/^Undo/, column)
  await d.page.getByText('the rest was set anew').waitFor({ state: 'hidden' })
  await d.context.close()
  return `${poured} g for ${items[0].grams} g: then ${sums.slice(1).join(', ')} g`
}

/** The tablet sleeps through the hard stop and knows it when it wakes. */
async function sleep(world) {
  const client = await testedClient(world.owner, 'Sofie Brun')
  const { id, course } = await plannedVisit(world.owner, client)
  const zone = course.bowls[0].zones[0]
  const kLeftMin = 0.3
  await putOn(world.owner, id, [zone.zone], zone.hard_stop_at_min - zone.apply_at_min - kLeftMin)
  const run = await world.owner.api('GET', `/visits/${id}/run`)
  const stop = Date.parse(run.zones.find((one) => one.zone === zone.zone).hard_stop_at)
  const d = await world.device('tablet that sleeps', 'colourist', kSizes.tablet)
  await d.go(`visits/${id}/run`)
  await d.page.getByRole('timer').first().waitFor()
  const devtools = await d.context.newCDPSession(d.page)
  await devtools.send('Page.setWebLifecycleState', { state: 'frozen' })
  await d.until(async () => Date.parse((await world.owner.api('GET', '/me')).now) > stop + 2000, 'no stop')
  await devtools.send('Page.setWebLifecycleState', { state: 'active' })
  await d.sees(`Stop: rinse ${zone.zone} now`)
  const over = await d.page.getByRole('timer').first().textContent()
  await d.context.close()
  await world.owner.api('POST', `/visits/${id}/facts`, { facts: [{ kind: 'rinse', body: { zone: zone.zone } }] })
  return `asleep over the hard stop, awake it says "over by ${over}"`
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
  // The moment at which each would be done, so that it does not count when each was read.
  const deadline = async (device) => Date.now() / 1000 + seconds(await timer(device))
  const apart = Math.abs((await deadline(a)) - (await deadline(b)))
  assert.ok(apart <= kApart, `${apart} s apart`)
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
  await a.until(async () => (await timer(a)) !== before, 'the deadline stands still without a server')
  await world.serve()
  await a.page.getByText('The server does not answer').first().waitFor({ state: 'hidden' })
  await a.send()
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
  await d.page.getByText('Wipe the screen now').waitFor({ state: 'hidden' })
  await d.link('Shelf').click()
  await d.page.getByRole('heading', { name: 'Shelf' }).waitFor()
}

export const scenarios = [
  ['two tablets, a reload, a killed server', twoTablets],
  ['a sleep over a hard stop', sleep],
  ['too much in the bowl', overPour],
  ['a hard stop and pain', hardStop],
  ['wiping', wipe]
]
