// Away from the chair: letting a device in, a client, a card, the shelf.
import assert from 'node:assert/strict'
import { kSizes } from './world.mjs'

async function pairing(world) {
  const owner = world.owner
  await owner.go('salon')
  await owner.tap('Let a device in')
  const code = (await owner.page.locator('.code').textContent()).trim()
  assert.match(code, /^\d{6}$/)
  await owner.page.getByRole('img', { name: /Square code/ }).waitFor()
  const context = await world.browser.newContext({ viewport: { width: kSizes.phone[0], height: kSizes.phone[1] } })
  const page = await context.newPage()
  await page.goto(`${world.base}/#code=${code}`)
  assert.equal(await page.getByLabel('Code').inputValue(), code)
  await page.getByLabel('What this device is called').fill('phone of Mira')
  await page.getByRole('button', { name: 'Let in' }).click()
  await page.getByRole('heading', { name: 'Today' }).waitFor()
  // The same code lets nobody else in.
  const other = await (await world.browser.newContext()).newPage()
  await other.goto(`${world.base}/#code=${code}`)
  await other.getByRole('button', { name: 'Let in' }).click()
  await other.getByRole('alert').waitFor()
  await owner.go('today')
  await owner.go('salon')
  await owner.sees('phone of Mira')
  await other.context().close()
  await context.close()
}

async function client(world) {
  const owner = world.owner
  await owner.go('clients')
  await owner.page.getByRole('searchbox').fill('Lena Ark')
  await owner.sees('Nobody here is called')
  owner.taps = 0
  await owner.tap('New client')
  assert.equal(await owner.page.getByLabel('Name', { exact: true }).inputValue(), 'Lena Ark')
  await owner.page.getByLabel('Phone').fill('0155 0277')
  await owner.tap('Save')
  await owner.page.getByRole('heading', { name: 'Lena Ark' }).waitFor()
  await owner.sees('No reaction or block is on record')
  await owner.tap('Add a reaction or block')
  await owner.tap('Black tattoo')
  await owner.page.getByLabel('What happened').fill('blisters on a holiday')
  await owner.tap('Save')
  await owner.sees('blisters on a holiday')
  await owner.go('clients')
  await owner.page.getByRole('searchbox').fill('0277')
  await owner.link(/Lena Ark/).click()
  await owner.sees('blisters on a holiday')
  return `${owner.taps} taps for a new client with a block`
}

async function card(world) {
  const owner = world.owner
  await owner.go('clients/card')
  owner.taps = 0
  await owner.page.getByLabel('Name', { exact: true }).fill('Rosa Kell')
  await owner.page.getByLabel('Last visit').fill('2024-05-02')
  await owner.tap('permanent colour')
  await owner.tap('relaxed')
  await owner.page.getByLabel(/Formula/).fill('walnut, one to one, 30 minutes')
  await owner.tap('Hair dye')
  await owner.tap('Keep this card')
  await owner.page.getByRole('heading', { name: 'Rosa Kell' }).waitFor()
  await owner.sees('hair dye')
  return `${owner.taps} taps`
}

async function shelf(world) {
  const owner = world.owner
  await owner.go('shelf')
  owner.taps = 0
  await owner.tap('New product')
  await owner.tap('level 6, dark blond')
  await owner.tap('copper')
  await owner.page.getByLabel('Line').fill('house cream')
  await owner.tap('On the shelf')
  await owner.page.locator('button[aria-expanded=false]', { hasText: 'New product' }).waitFor()
  await owner.sees('copper dark blond, house cream')
  await owner.tap(/copper dark blond, house cream/)
  await owner.page.getByLabel('Grams here, g').fill('55')
  await owner.page.getByLabel('Grams here, g').press('Enter')
  await owner.tap(/^Counted$/)
  await owner.page.getByRole('button', { name: /copper dark blond, house cream.*55 g/ }).waitFor()
  return `${owner.taps} taps with a count`
}

async function rights(world) {
  const helper = await world.device('phone of the helper', 'assistant', kSizes.phone)
  await helper.go('salon')
  await helper.sees('Only an owner changes these')
  await helper.go('shelf')
  await helper.page.getByRole('heading', { name: 'Shelf' }).waitFor()
  assert.equal(await helper.page.getByRole('button', { name: 'New product' }).count(), 0)
  await helper.context.close()
}

export const scenarios = [
  ['a device is let in by a code', pairing],
  ['a new client, found again by number, with a block that cannot be missed', client],
  ['an old paper card', card],
  ['a shade on the shelf', shelf],
  ['a helper sees no keys of the owner', rights]
]
