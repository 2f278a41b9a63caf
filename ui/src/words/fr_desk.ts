// French texts of the screens away from the chair, and of the picture of a tress.
import type { DeskWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n < 2 ? one : many}`

export const frDesk: DeskWords = {
  workbench: {
    title: 'Établi',
    words: "Une mèche de personne en particulier : essayer, comparer, expliquer. Aucun chemin essayé ici n'est gardé.",
    side: ['Premier parcours', 'Second parcours'],
    edit: (side) => `Changer le ${side.toLowerCase()}`,
    same: 'Rendre les deux pareils',
    differ: (list) => `Ils diffèrent par : ${list}.`,
    alike: 'Les deux sont pareils.',
    chart: (side) => `Graphique de mèche, ${side.toLowerCase()}`,
    canvas: 'Base, hauteur',
    strand_um: 'Épaisseur du cheveu',
    length_cm: 'Longueur',
    strength: "Force de l'oxydant",
    parts: "Parts d'oxydant pour une",
    thinning: 'Allongé de shampooing',
    minutes: 'Minutes sur les cheveux',
    cover: 'Couverture',
    open: "À l'air libre",
    covered: 'Couvert',
    water: 'Eau dans les cheveux',
    waterUnit: 'g/g',
    tone: 'Couleur par-dessus',
    none: 'Aucune',
    depth: 'Sa hauteur',
    colour_min: 'Ses minutes',
    after: "Après l'éclaircissement",
    end: 'Après la couleur',
    mix: (percent) => `${percent} % de peroxyde dans le mélange`,
    wear: (percent) => `usure : ${percent} % de ce que la fibre peut donner`,
    lifted: 'Ombres relevées'
  },
  evidence: {
    moved: 'Ce que le salon a déplacé',
    next: 'Ce qui apprendrait le plus maintenant',
    title: 'Constats',
    words: "Ce qui a été lu à la fin, face à ce qui était attendu.",
    span: 'Depuis',
    spans: [
      { value: 3, words: 'Trois mois' },
      { value: 12, words: 'Un an' },
      { value: 24, words: 'Deux ans' },
      { value: 120, words: 'Tout' }
    ],
    none: "Aucun résultat n'a été lu face à un plan pendant ce temps.",
    held: (inTen) => `${inTen} sur 10`,
    heldWords: (n) =>
      `sont tombées dans leur marge, là où 8 le devraient (${s(n, 'zone lue', 'zones lues')}).`,
    zones: (n) => s(n, 'zone', 'zones'),
    off: (by, way) => `${by} ton ${way} qu'attendu`,
    right: 'comme attendu en moyenne',
    lighter: 'plus clair',
    darker: 'plus foncé',
    scatter: (by) => `dispersion : ${by} ton`,
    width: (by) => `largeur de la marge : ${by} ton`,
    picture: 'Lu face à attendu, une marque par zone',
    expected: 'hauteur attendue',
    found: 'hauteur lue',
    inside: 'dans sa marge',
    outside: 'dehors',
    by: {
      by_zone: 'Par zone',
      by_start_level: 'Par hauteur de départ',
      by_reader: 'Par lecteur',
      by_shade: 'Par nuance'
    },
    few: 'trop peu pour juger',
    point: (zone, day, found, low, high) => `${zone}, ${day} : lu ${found}, attendu ${low} à ${high}`,
    list: 'Tous les résultats en liste',
    onlyColourist: 'Visible pour les coloristes et les propriétaires.'
  },
  strand: {
    title: 'Test de mèche',
    words: (bowl) =>
      `Une mèche de la zone dans le mélange du bol ${bowl}, rincée, essuyée et lue. ` +
      'Elle précise le plan de cette tête.',
    on: 'Sur la mèche maintenant',
    again: 'Recommencer',
    minutes: 'Minutes de pose',
    level: 'Hauteur atteinte',
    stretch: 'Son élasticité, mouillée',
    stretches: [
      { value: 'springs_back', words: 'Revient' },
      { value: 'stays_stretched', words: 'Reste étirée' },
      { value: 'gummy', words: 'Caoutchouteuse' },
      { value: 'snaps', words: 'Casse' }
    ],
    passed: 'Réussi',
    failed: 'Échoué',
    changed: 'Ce que la mèche a changé'
  },
  tress: {
    name: (words) => `Image d'une mèche : ${words}`,
    note: 'Une image, pas une promesse : la lumière, le mouvement et chaque tête diffèrent.',
    title: 'En cheveux'
  },
  enquiry: {
    title: 'Demande',
    words: "Une fourchette prudente pour qui se renseigne. Rien n'est gardé avant une visite.",
    length: 'Longueur, étirée',
    level: 'Hauteur actuelle, comme décrite',
    white: 'Blancs',
    lightened: 'Décolorations',
    coloured: 'Couleurs dessus',
    when: 'Souhaité pour',
    answer: 'Calculer une fourchette',
    time: 'Au fauteuil',
    price: 'Prix',
    materials: "Produits seuls : le prix de l'heure n'est pas encore fixé, sous Salon.",
    visits: (low, high) => (low === high ? s(low, 'visite', 'visites') : `${low} à ${high} visites`),
    deposit: 'Acompte pour réserver le jour',
    depositOf: (percent) => `${percent} % du prix le plus bas`,
    tests: 'Test cutané',
    testsWords: (by) =>
      `Le poser avant ${by} ; le lire 48 heures après. Sans lui, pas de coloration d'oxydation.`,
    noTests: 'Aucun des chemins ne demande de test cutané.',
    arrive: 'Comment venir',
    arriveList: [
      "Cheveux secs, non lavés depuis un jour, sans huile ni laque.",
      'Ni vanilles ni tresses défaites le jour même.',
      'Apporter des photos du souhait et les noms de ce qui a servi à la maison.',
      "Dire d'avance : réactions, médicaments, grossesse, cuir chevelu douloureux."
    ],
    arriveSource: 'Pratique courante, sans source.',
    none: "Rien sur cette étagère ne s'en approche en un jour. Proposez d'abord de voir les cheveux.",
    careful: 'Décrit, non vu : la fourchette se resserre à la lecture des cheveux.',
    book: 'Aux clients'
  }
}
