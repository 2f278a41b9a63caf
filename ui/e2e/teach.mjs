// For teaching: the drill that learns an eye, and a past visit told step by step.
import assert from 'node:assert/strict'
import { kSizes, testedClient, wholeVisit } from './world.mjs'

/** A strand is read several times; the page then says how this eye reads, and so does evidence. */
async function drill(world) {
  const d = await world.device('tablet of the drill', 'colourist', kSizes.tablet)
  await d.go('workbench')
  const part = d.page.getByRole('region', { name: 'Read this strand' })
  await part.getByRole('img', { name: 'A strand to read' }).waitFor()
  const told = part.getByText(/strands read: too few|On this screen the eye reads/)
  for (let i = 0; i < 6; ++i) {
    await part.getByRole('button', { name: 'Level 5.5', exact: true }).click()
    await part.getByRole('button', { name: 'Natural', exact: true }).click()
    await part.getByRole('button', { name: 'That is my reading' }).click()
    await part.getByText(/Right: level|It is level/).waitFor()
    await part.getByText(/The warmth is/).waitFor()
    await told.first().waitFor()
    if (i === 0) assert.match(await told.first().textContent(), /^1 of 5 strands read/)
    await part.getByRole('button', { name: 'Another strand' }).click()
    await part.getByRole('button', { name: 'That is my reading' }).waitFor()
  }
  assert.match(await told.first().textContent(), /On this screen the eye reads .* from 6 strands/)
  await d.sees(/nobody calibrated/)
  // What was said stands in the book, once each.
  const { eyes } = await world.owner.api('GET', '/drills?reader=tablet%20of%20the%20drill')
  assert.equal(eyes[0].count, 6)
  await d.go('evidence')
  await d.sees('The eye of tablet of the drill')
  await d.context.close()
}

/** From a client's page through the steps of her last visit, forward and back. */
async function steps(world) {
  const client = await testedClient(world.owner, 'Wanda Kisch')
  const { id, course, first } = await wholeVisit(world.owner, client)
  const d = await world.device('tablet of the steps', 'colourist', kSizes.tablet)
  await d.go(`clients/${client}`)
  await d.page.getByRole('link', { name: /Step by step/ }).click()
  await d.sees('Step 1 of')
  await d.page.getByRole('heading', { name: 'What was known and asked' }).waitFor()
  const on = d.page.getByRole('button', { name: 'Step on' })
  const list = d.page.getByRole('region', { name: 'Steps' })
  await on.click()
  await d.page.getByRole('heading', { name: 'What was planned' }).waitFor()
  await d.sees(course.name)
  await d.page.locator('canvas').waitFor()
  await on.click()
  await d.page.getByRole('heading', { name: 'A bowl is mixed' }).waitFor()
  const poured = course.bowls[0].items[0].grams
  const row = d.page.locator('tbody tr').first()
  assert.match(await row.textContent(), new RegExp(`${poured} g\\s*${poured + 2} g`))
  await list.getByRole('button', { name: /A look/ }).first().click()
  await d.page.getByRole('heading', { name: 'A look' }).waitFor()
  await d.sees('read 4.5')
  await d.sees(/expected level/)
  await d.page.getByRole('button', { name: 'Step back' }).click()
  await d.page.getByRole('heading', { name: 'A bowl goes on' }).waitFor()
  await list.getByRole('button', { name: /How it came out/ }).click()
  await d.sees(/(inside|outside) the band/)
  while (await on.isEnabled()) await on.click()
  await d.page.getByRole('heading', { name: 'What was learned' }).waitFor()
  assert.match(await d.page.locator('.reasons').textContent(), /lift|eye|hair/)
  // The same for teaching, where nobody's name may stand.
  await d.go('workbench')
  await d.page.locator(`a[href$="workbench/${id}"]`).click()
  await d.page.getByRole('heading', { name: 'A past visit, step by step' }).waitFor()
  await d.page.locator('ol button').first().waitFor()
  const text = await d.page.locator('main').textContent()
  for (const name of ['Wanda', 'Kisch', 'tablet of the owner']) assert.ok(!text.includes(name), `${name} stands there`)
  assert.ok(first)
  await d.context.close()
}

export const scenarios = [
  ['a drill learns how an eye reads', drill],
  ['a past visit, step by step', steps]
]
