// Every screen at every size: axe, sizes and gaps of controls, and pictures to be looked at.
import assert from 'node:assert/strict'
import { join } from 'node:path'
import { axeFindings, misfits } from './measure.mjs'
import { drawLine, framed } from './photo.mjs'
import { kSizes, plannedVisit, putOn, testedClient, wholeVisit } from './world.mjs'

async function places(world) {
  const client = await testedClient(world.owner, 'Clara Dunn')
  await world.owner.api('POST', `/clients/${client}/facts`, {
    facts: [{ kind: 'allergy', body: { to: 'other', substance: 'nickel', told_by: 'client' } }]
  })
  const waiting = await plannedVisit(world.owner, client)
  const running = await plannedVisit(world.owner, client, 'auburn')
  const zones = running.course.bowls[0].zones.map((one) => one.zone)
  await putOn(world.owner, running.id, zones, 6)
  const past = await wholeVisit(world.owner, await testedClient(world.owner, 'Pia Lund'))
  return [
    ['today', 'today', 'h1'],
    ['clients', 'clients', 'h1'],
    ['card', 'clients/card', 'h1'],
    ['client', `clients/${client}`, 'h1'],
    ['head', `visits/${waiting.id}/head`, '.tiles'],
    ...(world.photoProgram ? [['photo', `visits/${waiting.id}/photo`, 'h2']] : []),
    ['plan', `visits/${waiting.id}/plan`, 'canvas'],
    ['show', `visits/${waiting.id}/show/1`, 'canvas'],
    ['bowl', `visits/${waiting.id}/bowls`, '.dose'],
    ['run', `visits/${running.id}/run`, '[role=timer]'],
    ['canvas', `visits/${running.id}/canvas`, '.tiles'],
    ['finish', `visits/${waiting.id}/finish`, '.three'],
    ['shelf', 'shelf', '.product'],
    ['salon', 'salon', 'h1'],
    ['workbench', 'workbench', 'canvas'],
    ['replay', `replay/${past.id}`, 'ol button'],
    ['lesson', `workbench/${past.id}`, 'ol button'],
    ['evidence', 'evidence', 'h1'],
    ['enquiry', 'enquiry', '.tiles']
  ]
}

/** A strand read, and all that is folded opened, so that everything of the screen is there. */
async function readPhoto(d, world) {
  const folder = framed(world)
  await d.page.locator('input[type=file]').first().setInputFiles(join(folder, 'strand.jpg'))
  await drawLine(d)
  await d.page.locator('.button.main').first().click()
  await d.page.locator('.zones').first().waitFor()
  await d.page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)))
}

/** On to the step that has a look, its figures and its reasons. */
async function toTheLook(d) {
  const steps = d.page.locator('ol button')
  const count = await steps.count()
  for (let i = 0; i < count; ++i) {
    await steps.nth(i).click()
    if (await d.page.locator('.reasons').count() && i > 2) break
  }
}

const kOwnNames = { es: 'Español', fr: 'Français', pt: 'Português' }
const screensIn = (language) => async (world) => {
  const d = await world.device(`tablet that is looked at, ${language}`, 'owner')
  if (language !== 'en') {
    await d.go('salon')
    await d.tap(kOwnNames[language])
    await d.page.locator(`html[lang^=${language}]`).waitFor({ state: 'attached' })
  }
  const bad = []
  const list = await places(world)
  for (const [name, place, sign] of list) {
    await d.go(place)
    await d.page.locator(sign).first().waitFor()
    if (name === 'replay') await d.page.locator('ol button').nth(1).click()
    if (name === 'lesson') await toTheLook(d)
    if (name === 'replay' || name === 'lesson') await d.page.locator('canvas').first().waitFor()
    if (name === 'shelf') await d.page.locator('button[aria-expanded]').first().click()
    if (name === 'photo') await readPhoto(d, world)
    await d.settled()
    // The page says its language, and a reader its words in that voice.
    assert.equal((await d.page.locator('html').getAttribute('lang'))?.slice(0, 2), language)
    for (const [size, [width, height]] of Object.entries(kSizes)) {
      await d.page.setViewportSize({ width, height })
      await d.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
      for (const one of await misfits(d.page)) bad.push(`${name} at ${size}: ${one}`)
      if (language === 'en' || size === 'phone') {
        for (const one of await axeFindings(d.page)) bad.push(`${name} at ${size}: ${one}`)
      }
      if (world.shots) {
        await d.page.screenshot({ path: join(world.shots, `${name}-${size}${language === 'en' ? '' : '-' + language}.png`), fullPage: true })
      }
    }
  }
  await d.context.close()
  assert.deepEqual([...new Set(bad)].slice(0, 40), [])
  return `${list.length} screens × ${Object.keys(kSizes).length} sizes`
}

/** Run as three kinds of colour vision see it, to be looked at (Chromium's own simulation, after
 *  Machado, Oliveira and Fernandes 2009). */
async function colourVision(world) {
  if (!world.shots) return 'left out: no --shots'
  const client = await testedClient(world.owner, 'Nele Rau')
  const { id, course } = await plannedVisit(world.owner, client)
  const [first, ...rest] = course.bowls[0].zones
  await putOn(world.owner, id, [first.zone], first.hard_stop_at_min - first.apply_at_min + 1)
  await putOn(world.owner, id, rest.map((one) => one.zone), 6)
  const d = await world.device('tablet of three eyes', 'colourist', kSizes.wide)
  await d.go(`visits/${id}/run`)
  await d.page.getByRole('timer').first().waitFor()
  await d.settled()
  const devtools = await d.context.newCDPSession(d.page)
  for (const type of ['protanopia', 'deuteranopia', 'tritanopia']) {
    await devtools.send('Emulation.setEmulatedVisionDeficiency', { type })
    await d.page.screenshot({ path: join(world.shots, `run-${type}.png`), fullPage: true })
  }
  await d.context.close()
  await world.owner.api('POST', `/visits/${id}/facts`, {
    facts: course.bowls[0].zones.map((one) => ({ kind: 'rinse', body: { zone: one.zone } }))
  })
}

export const scenarios = [
  ['three kinds of colour vision on a run', colourVision],
  ['every screen: nothing for axe to find, controls of 56 px and 12 px apart', screensIn('en')],
  ['every screen in Spanish', screensIn('es')],
  ['every screen in French', screensIn('fr')],
  ['every screen in Portuguese', screensIn('pt')]
]
