// French texts of reading a strand from a photo.
import type { PhotoWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n < 2 ? one : many}`

export const frPhoto: PhotoWords = {
  reading: {
    title: 'Lire une mèche sur une photo',
    words:
      'Tenir la feuille imprimée à côté de la mèche, dans la même lumière, et prendre les deux sur une photo.',
    open: 'La lire sur une photo',
    back: 'Retour à la tête',
    take: 'Prendre ou choisir une photo',
    another: 'Une autre photo',
    kept: 'Photos de cette visite',
    numbered: (n) => `Photo nº ${n}`,
    picture: 'La photo',
    draw: "Dessiner le long de la mèche, de la racine à la pointe\u00a0: un trait, ou une touche par point.",
    keys: 'Les flèches déplacent un point\u00a0; Entrée en ajoute un.',
    noLine: 'La ligne sur la mèche\u00a0: aucune encore',
    line: (n, of) => `La ligne sur la mèche\u00a0: point ${n} sur ${of}`,
    scalp: 'racine',
    tip: 'pointe',
    move: 'Déplacer la ligne',
    before: 'Point précédent',
    after: 'Point suivant',
    left: 'À gauche',
    up: 'Vers le haut',
    down: 'Vers le bas',
    right: 'À droite',
    more: 'Un point de plus',
    less: 'Enlever ce point',
    anew: 'Redessiner',
    length: 'Longueur de la mèche, étirée',
    go: 'Lire la mèche',
    working: 'Lecture de la photo',
    found: (n) => s(n, "tronçon d'une seule couleur", "tronçons d'une seule couleur"),
    strip: 'Ce que montre la photo, de la racine à la pointe',
    place: (from, to) => `${from} à ${to} cm`,
    levels: (low, high) => `${low} à ${high}, 8 fois sur 10`,
    lab: 'Couleur à la lumière du jour',
    odds: 'Chaque ± tient 8 fois sur 10\u00a0: mire, lumière et cheveux ensemble.',
    patches: (middle, most) =>
      `Chaque plage, lue par l'ajustement des autres, s'écarte de ${middle} CIEDE2000 au milieu, de ${most} au plus.`,
    grey: "Une carte grise ne donne que le blanc et l'exposition, donc la bande est large.",
    leftOut: (n) => `${s(n, 'plage écartée', 'plages écartées')}\u00a0: reflet, cachée ou trop claire.`,
    look: 'Cela correspond-il à ce que vous voyez\u00a0? Une mèche qui brille ou penche est lue trop claire.',
    into: 'La reprendre dans la tête',
    taken: (n) => `${s(n, 'zone reprise', 'zones reprises')} de la photo.`,
    undo: 'Annuler',
    byPhoto: "d'après la photo",
    refused: "Rien n'est lu sur cette photo",
    noSheet: 'Pas de feuille sur la photo',
    busy: 'Une autre photo est en cours de lecture\u00a0; celle-ci suit.',
    sheet: 'Imprimer la feuille',
    sheetWords:
      "Imprimée une fois en taille réelle, découpée et posée autour d'une mire de 24 plages ou d'une carte grise.",
    chart: "Ce qu'il y a dans sa fenêtre",
    charts: [
      { value: 'after-2014', words: '24 plages, depuis novembre 2014' },
      { value: 'before-2014', words: '24 plages, avant novembre 2014' },
      { value: 'grey', words: 'Carte grise, 18\u00a0%' }
    ],
    paper: 'Papier',
    papers: [
      { value: 'a4', words: 'A4' },
      { value: 'letter', words: 'Letter (216 × 279 mm)' }
    ],
    windowWide: 'Fenêtre, largeur',
    windowHigh: 'Fenêtre, hauteur',
    mm: 'mm',
    openSheet: 'Ouvrir la feuille',
    second: 'Comparer avec une deuxième photo',
    secondWords: 'La même mèche plus tard, au même endroit, avec le même téléphone.',
    first: 'Première photo',
    later: 'Deuxième photo',
    compare: 'Comparer les deux',
    change: 'Ce qui a changé',
    lighter: (n) => `plus clair de ${n} hauteurs`,
    darker: (n) => `plus foncé de ${n} hauteurs`,
    alike: 'ni plus clair ni plus foncé',
    oneLight:
      "La même lumière et le même appareil ont pris les deux, donc l'essentiel de ce qu'une photo fausse s'annule.",
    fromTo: (from, to) => `de ${from} à ${to}`
  }
}
