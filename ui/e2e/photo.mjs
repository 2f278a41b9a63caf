// A strand read from a photo: drawn, read, taken into the head, planned; and what is turned down.
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { kSizes, testedClient } from './world.mjs'

/** The folder with rendered photos; made once. */
export function framed(world) {
  if (!world.frames) {
    world.frames = join(world.folder, 'frames')
    mkdirSync(world.frames)
    execFileSync(world.photoProgram, [world.frames])
  }
  return world.frames
}

// Where the strand hangs in the rendered photos, as shares of the picture.
const kScalp = [0.633, 0.1]
const kTip = [0.667, 0.911]

/** One stroke of a finger or pen along the strand, with a hand's tremble. */
export async function drawLine(d, which = 0, from = kScalp, to = kTip) {
  const picture = d.page.locator('button.touch').nth(which)
  await picture.scrollIntoViewIfNeeded()
  await d.until(async () => ((await picture.boundingBox())?.height ?? 0) > 100, 'no picture')
  const box = await picture.boundingBox()
  const at = (t, beside = 0) => [
    box.x + (from[0] + t * (to[0] - from[0])) * box.width + beside,
    box.y + (from[1] + t * (to[1] - from[1])) * box.height
  ]
  await d.page.mouse.move(...at(0))
  await d.page.mouse.down()
  for (let i = 1; i <= 20; ++i) await d.page.mouse.move(...at(i / 20, i % 2))
  await d.page.mouse.up()
}
const choose = (d, world, file, which = 0) =>
  d.page.locator('input[type=file]').nth(which).setInputFiles(join(framed(world), file))

/** Photo, line, zones, head, and back; then again and on to the plan. */
async function intoTheHead(world) {
  if (!world.photoProgram) return 'left out: no --photos PROGRAM'
  const d = await world.device('tablet with a camera', 'colourist', kSizes.tablet, true)
  const client = await testedClient(world.owner, 'Lena Voss')
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.sees('All zones spring back')
  const visit = d.page.url().match(/visits\/([^/]+)/)[1]
  await d.tap(d.link('Read it from a photo'))
  await choose(d, world, 'strand.jpg')
  await drawLine(d)
  const go = d.page.getByRole('button', { name: 'Read the strand' })
  const long = d.page.getByLabel('Strand length, stretched, cm')
  await long.fill('30')
  await long.press('Enter')
  const start = Date.now()
  await d.tap(go)
  await d.sees('3 stretches of one colour')
  const seconds = ((Date.now() - start) / 1000).toFixed(1)
  // Words for her, numbers only for who asks why.
  assert.equal(await d.page.getByText(/L\* \d/).locator('visible=true').count(), 0)
  await d.page.locator('summary', { hasText: 'Why' }).click()
  await d.sees(/L\* [\d.]+ ± [\d.]+/)
  await d.tap('Take it into the head')
  await d.sees('3 zones taken from the photo')
  const zones = d.page.getByRole('group', { name: 'Zone' })
  assert.match(await d.page.getByRole('img', { name: /The strand/ }).getAttribute('aria-label'), /roots 0–4[\d.]* cm.*lengths.*–2[01].*ends.*–30 cm/)
  // Taken back, it is the head of before; taken again it stays.
  await d.tap('Undo')
  assert.match(await d.page.getByRole('img', { name: /The strand/ }).getAttribute('aria-label'), /ends 15–20 cm/)
  await d.go(`visits/${visit}/photo`)
  await d.tap('Photo 1')
  await drawLine(d)
  await d.tap('Read the strand')
  await d.tap('Take it into the head')
  await d.tap('All zones spring back')
  await d.tap('Agrees')
  await d.tap(/Nothing new/)
  await d.tap(d.page.getByRole('button', { name: 'chestnut', exact: true }))
  assert.match((await zones.textContent()) ?? '', /ends/)
  await d.tap('See the ways')
  await d.page.getByRole('article').first().waitFor()
  const known = await d.api('GET', `/visits/${visit}`)
  assert.deepEqual(known.case.zones.map((zone) => zone.readings[0].by), ['photo', 'photo', 'photo'])
  // The photo is the client's: it goes when she is erased.
  assert.ok(known.facts.some((one) => one.kind === 'photo'))
  assert.ok(known.facts.some((one) => one.kind === 'reading' && one.body.reader === 'photo'))
  await d.context.close()
  return `read in ${seconds} s`
}

/** The same by keyboard alone, on a laptop. */
async function byKeys(world) {
  if (!world.photoProgram) return 'left out: no --photos PROGRAM'
  const d = await world.device('laptop that reads photos', 'colourist', kSizes.laptop)
  const client = await testedClient(world.owner, 'Rosa Lind')
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.sees('All zones spring back')
  await d.tap(d.link('Read it from a photo'))
  await choose(d, world, 'strand.jpg')
  const picture = d.page.locator('button.touch')
  await picture.focus()
  const press = async (key, times = 1) => {
    for (let n = 0; n < times; ++n) await d.page.keyboard.press(key)
  }
  // A first point at the middle, a second below it; both to where the strand is.
  await press('Enter', 2)
  await press('Shift+ArrowRight', 3)
  await press('ArrowRight', 2)
  await press('Shift+ArrowDown', 3)
  await press('PageUp')
  await press('Shift+ArrowRight', 2)
  await press('ArrowRight', 3)
  await press('Shift+ArrowUp', 3)
  await d.sees('point 1 of 2')
  await d.page.getByRole('button', { name: 'Read the strand' }).focus()
  await press('Enter')
  await d.sees('3 stretches of one colour')
  await d.context.close()
}

/** Words and a wide band without a sheet; one line and the way to mend it with a lamp on it. */
async function turnedDown(world) {
  if (!world.photoProgram) return 'left out: no --photos PROGRAM'
  const d = await world.device('phone with a camera', 'colourist', kSizes.phone, true)
  const client = await testedClient(world.owner, 'Jana Holt')
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.sees('All zones spring back')
  await d.tap(d.link('Read it from a photo'))
  await choose(d, world, 'no-sheet.jpg')
  await drawLine(d)
  await d.tap('Read the strand')
  await d.sees('No sheet in the photo')
  const words = await d.page.getByText(/^Somewhere from/).textContent()
  assert.doesNotMatch(words ?? '', /\d/)
  assert.equal(await d.page.getByRole('button', { name: 'Take it into the head' }).count(), 0)
  const sheet = d.link('Open the sheet')
  const pdf = await d.context.request.get(world.base + (await sheet.getAttribute('href')))
  assert.equal(pdf.headers()['content-type'], 'application/pdf')
  await choose(d, world, 'glare.jpg')
  await drawLine(d)
  await d.tap('Read the strand')
  await d.sees('Nothing is read from this photo')
  await d.sees('a lamp shines on the chart')
  await d.sees('until nothing glares')
  assert.equal(await d.page.getByRole('button', { name: 'Take it into the head' }).count(), 0)
  await d.context.close()
}

/** Two photos in one light. */
async function compared(world) {
  if (!world.photoProgram) return 'left out: no --photos PROGRAM'
  const d = await world.device('tablet that compares', 'colourist', kSizes.wide, true)
  const client = await testedClient(world.owner, 'Marit Vale')
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.sees('All zones spring back')
  await d.tap(d.link('Read it from a photo'))
  await choose(d, world, 'strand.jpg')
  await drawLine(d)
  await d.tap('Read the strand')
  await d.sees('3 stretches of one colour')
  await d.page.locator('summary', { hasText: 'Compare with a second photo' }).click()
  await choose(d, world, 'later.jpg', 1)
  await d.page.locator('button.touch').nth(1).waitFor()
  await d.tap('Compare the two')
  await d.sees('What changed')
  await d.sees(/levels lighter/)
  await d.sees('no lighter, no darker')
  await d.sees('One light and camera took both')
  await d.context.close()
}

export const scenarios = [
  ['a strand read from a photo goes into the head, back out, and into a plan', intoTheHead],
  ['a photo is read with the keyboard alone', byKeys],
  ['a photo without a sheet gives words, one with a lamp on it the way to mend it', turnedDown],
  ['two photos in one light', compared]
]
