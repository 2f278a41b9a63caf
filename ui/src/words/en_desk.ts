// Texts of the screens away from the chair: workbench, evidence, enquiry; and of the picture of a
// tress.
const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const enDesk = {
  workbench: {
    title: 'Workbench',
    words: 'One strand of nobody in particular: try, compare, explain. No course that is tried here is kept.',
    side: ['First course', 'Second course'] as const,
    edit: (side: string) => `Change the ${side.toLowerCase()}`,
    same: 'Make both alike',
    differ: (list: string) => `They differ in: ${list}.`,
    alike: 'Both are alike.',
    chart: (side: string) => `Strand chart of the ${side.toLowerCase()}`,
    canvas: 'Canvas, level',
    strand_um: 'Strand thickness',
    length_cm: 'Length',
    strength: 'Strength of the developer',
    parts: 'Parts of developer to one',
    thinning: 'Thinned with shampoo',
    minutes: 'Minutes on the hair',
    cover: 'Cover',
    open: 'Open to the air',
    covered: 'Covered',
    water: 'Water held by the hair',
    waterUnit: 'g/g',
    tone: 'Colour over it',
    none: 'None',
    depth: 'Its level',
    colour_min: 'Its minutes',
    after: 'After the lift',
    end: 'After the colour',
    mix: (percent: string) => `${percent} % peroxide in the mix`,
    wear: (percent: number) => `wear ${percent} % of what the fibre can give`,
    lifted: 'Shadows lifted'
  },
  evidence: {
    moved: 'What the salon has moved',
    next: 'What would teach most next',
    title: 'Evidence',
    words: 'What was found at the finish, beside what was expected.',
    span: 'Since',
    spans: [
      { value: 3, words: 'Three months' },
      { value: 12, words: 'A year' },
      { value: 24, words: 'Two years' },
      { value: 120, words: 'All' }
    ],
    none: 'No outcome has been read beside a plan in this time.',
    held: (inTen: string) => `${inTen} in 10`,
    heldWords: (n: number) => `of ${s(n, 'zone', 'zones')} came out where 8 in 10 should.`,
    zones: (n: number) => s(n, 'zone', 'zones'),
    off: (by: string, way: string) => `${by} levels ${way} than expected`,
    right: 'as expected on average',
    lighter: 'lighter',
    darker: 'darker',
    scatter: (by: string) => `scatter ${by} levels`,
    width: (by: string) => `band ${by} levels wide`,
    picture: 'Found beside expected, each zone one mark',
    expected: 'expected level',
    found: 'found level',
    inside: 'inside its band',
    outside: 'outside',
    by: {
      by_zone: 'By zone',
      by_start_level: 'By level at the start',
      by_reader: 'By reader',
      by_shade: 'By shade'
    },
    few: 'too few to judge by',
    point: (zone: string, day: string, found: string, low: string, high: string) =>
      `${zone}, ${day}: found ${found}, expected ${low} to ${high}`,
    list: 'Every outcome as a list',
    onlyColourist: 'Colourists and owners see this.'
  },
  strand: {
    title: 'Strand test',
    words: (bowl: number) =>
      `A strand of the zone in the mix of bowl ${bowl}, rinsed, wiped and read. It narrows the plan of this head.`,
    on: 'On the strand now',
    again: 'Start it again',
    minutes: 'Minutes it was on',
    level: 'Level it came to',
    stretch: 'Its stretch, wet',
    stretches: [
      { value: 'springs_back', words: 'Springs back' },
      { value: 'stays_stretched', words: 'Stays stretched' },
      { value: 'gummy', words: 'Gummy' },
      { value: 'snaps', words: 'Snaps' }
    ] as const,
    passed: 'It passed',
    failed: 'It failed',
    changed: 'What the strand changed'
  },
  tress: {
    name: (words: string) => `Picture of a tress: ${words}`,
    note: 'A picture, not a promise: light, movement and every head differ.',
    title: 'As hair'
  },
  enquiry: {
    title: 'Enquiry',
    words: 'A careful range for somebody who asks. Nothing is kept until there is a visit.',
    length: 'Length, stretched',
    level: 'Level now, as told',
    white: 'White',
    lightened: 'Times lightened',
    coloured: 'Colours on it',
    when: 'Wished for',
    answer: 'Work out a range',
    time: 'In the chair',
    price: 'Price',
    materials: 'Materials alone: what an hour costs is not set yet, under Salon.',
    visits: (low: number, high: number) => (low === high ? s(low, 'visit', 'visits') : `${low} to ${high} visits`),
    deposit: 'Deposit to hold the date',
    depositOf: (percent: number) => `${percent} % of the lower price`,
    tests: 'Skin test',
    testsWords: (by: string) => `Put on by ${by}; read 48 hours later. Without it, no oxidative colour.`,
    noTests: 'None of the ways asks for a skin test.',
    arrive: 'How to arrive',
    arriveList: [
      'Hair dry, unwashed for a day, free of oil and spray.',
      'No twists or braids taken down on the same day.',
      'Bring photos of the wish, and the names of what was used at home.',
      'Say beforehand: reactions, medicine, pregnancy, a sore scalp.'
    ],
    arriveSource: 'Common practice, no source.',
    none: 'Nothing on this shelf comes near it in one day. Offer a look at the hair first.',
    careful: 'Told, not seen: the range narrows when the hair is read.',
    book: 'To the clients'
  }
}
