// The texts of the page in French. Before ; : ! ? and % stands a no-break space, as French sets it.
import { frChair } from './fr_chair'
import { frDesk } from './fr_desk'
import type { Words } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n < 2 ? one : many}`

export const fr: Words = {
  ...frDesk,
  ...frChair,
  locale: 'fr',
  name: 'Huewright',
  nav: {
    label: 'Principal',
    today: 'Agenda',
    clients: 'Clients',
    shelf: 'Étagère',
    salon: 'Salon',
    workbench: 'Établi',
    evidence: 'Constats',
    enquiry: 'Demande'
  },
  skip: 'Vers le contenu',
  now: 'maintenant',
  level: 'hauteur',
  grams: 'g',
  min: 'min',
  where: 'Où',
  source: 'Source',
  back: 'Retour',
  done: 'Fait',
  close: 'Fermer',
  save: 'Enregistrer',
  cancel: 'Annuler',
  loading: 'Un instant',
  tryAgain: 'Réessayer',
  less: (what) => `Moins : ${what}`,
  more: (what) => `Plus : ${what}`,
  noColour: 'couleur inconnue',
  screenCannot: "Cet écran ne peut pas l'afficher ; les cheveux sont plus intenses",
  closing:
    "Suivre les instructions du fabricant et la loi locale ; la personne professionnelle " +
    'qualifiée décide ; faire un test de mèche.',
  notProof:
    'Pas une preuve : les écrans diffèrent et reflètent. Comparez avec une mèche à la lumière du jour.',
  zone: {
    names: {
      root: 'racine',
      roots: 'racines',
      mid: 'longueurs',
      mids: 'longueurs',
      lengths: 'longueurs',
      edges: 'contours',
      ends: 'pointes',
      nape: 'nuque',
      back: 'arrière',
      crown: 'sommet',
      sides: 'côtés',
      hairline: 'contour',
      rest: 'reste'
    },
    lower: (zone) => `${zone} (bas)`,
    of: (section, zone) => `${zone}, ${section}`
  },
  offline: {
    title: 'Le serveur ne répond pas',
    words: 'Ce que vous notez est gardé ici et envoyé à son retour. Les délais continuent.',
    waiting: (n) => s(n, 'note pas encore enregistrée', 'notes pas encore enregistrées')
  },
  undo: { undo: (n) => `Annuler · ${n}` },
  wipe: {
    button: 'Essuyer',
    title: "Essuyez l'écran maintenant",
    left: (n) => `Le tactile est coupé ${n} s. Les minuteurs continuent.`
  },
  alarm: {
    soon: (zone) => `${zone} : temps maximal dans`,
    now: (zone) => `Stop : rincer maintenant ${zone}`,
    over: 'temps maximal dépassé',
    seen: "J'y vais",
    open: 'Ouvrir la visite',
    running: 'En cours'
  },
  pair: {
    title: 'Donner accès à cet appareil',
    words:
      'Sur un appareil qui a déjà accès : Salon, puis Donner accès. Tapez le code qui s\'affiche.',
    code: 'Code',
    device: 'Nom de cet appareil',
    deviceHint: 'tablette près de la fenêtre',
    go: 'Entrer'
  },
  today: {
    title: "Aujourd'hui",
    earlier: 'Jour précédent',
    later: 'Jour suivant',
    none: 'Aucun rendez-vous ce jour.',
    newVisit: 'Nouvelle visite',
    tomorrow: 'Demain',
    chair: (chair) => `à ${chair}`,
    hello: (name) => `Bonjour${name ? ' ' + name : ''}`,
    clients: 'Cherchez une fiche pour commencer',
    late: (time) => `${time} de retard`
  },
  stage: {
    asked: 'demandée',
    booked: 'réservée',
    'under way': 'en cours',
    finished: 'terminée',
    cancelled: 'annulée'
  },
  clients: {
    title: 'Clients',
    find: 'Chercher par nom ou numéro',
    none: (typed) => `Personne ici ne s'appelle « ${typed} ».`,
    empty: "Tapez une partie d'un nom, ou les derniers chiffres d'un numéro.",
    add: 'Nouvelle fiche',
    card: 'Ancienne fiche papier',
    name: 'Nom',
    phone: 'Téléphone',
    age: 'Âge',
    ages: [
      { value: 'adult', words: 'Adulte' },
      { value: '16 to 17', words: '16 à 17 ans' },
      { value: 'under 16', words: 'Moins de 16 ans' }
    ],
    erased: 'effacé'
  },
  client: {
    newVisit: 'Nouvelle visite maintenant',
    book: 'Réserver une date',
    day: 'Jour',
    time: 'Heure',
    wish: 'Ce qui est souhaité',
    open: 'Ouvrir la visite en cours',
    blocks: 'Jamais sans lire ceci',
    askAgain: "Redemander aujourd'hui.",
    noBlocks: "Ni réaction ni blocage dans la fiche. Redemander aujourd'hui.",
    tests: 'Tests cutanés',
    noTests: 'Aucun test cutané dans la fiche.',
    testState: {
      waits: 'posé, à lire',
      valid: 'lu sans réaction',
      lapsed: 'périmé : refaire le test',
      positive: 'a réagi : jamais ce produit'
    },
    until: (day) => `vaut jusqu'au ${day}`,
    applied: (day) => `posé le ${day}`,
    readClear: 'Lu : sans réaction',
    readPositive: 'Lu : a réagi',
    addTest: 'Test cutané posé maintenant',
    testOf: 'Quelle nuance',
    visits: 'Visites',
    noVisits: 'Pas encore de visite.',
    addBlock: 'Ajouter réaction ou blocage',
    blockTo: 'Réaction à',
    happened: "Ce qui s'est passé",
    details: 'Détails',
    notes: 'Notes',
    consents: 'Consentements',
    export: 'Extraire toute cette fiche',
    erase: 'Effacer cette personne',
    eraseHold: 'Maintenir deux secondes pour effacer à jamais',
    history: 'Tout ce qui a été noté',
    kinds: {
      allergy: 'allergie',
      consent: 'consentement',
      curl: 'boucle',
      erased: 'effacement',
      hair_past: 'passé des cheveux',
      hair_test: 'test des cheveux',
      person: 'personne',
      photo: 'photo',
      reaction: 'réaction',
      skin_test: 'test cutané',
      lesson: 'leçon',
      learned: 'appris',
      payment: 'paiement',
      enquiry: 'demande'
    },
    price: 'Prix'
  },
  allergies: [
    { value: 'hair dye', words: 'Coloration' },
    { value: 'black temporary tattoo', words: 'Tatouage noir' },
    { value: 'lightener', words: 'Décolorant' },
    { value: 'other', words: 'Autre' }
  ],
  card: {
    title: 'Ancienne fiche papier',
    words: 'Ce qui compte pour la prochaine visite. Le reste peut attendre.',
    last: 'Dernière visite',
    services: 'Ce qui a été fait',
    done: [
      'couleur permanente',
      'couleur demi',
      'décoloration',
      'défrisage',
      'permanente',
      'lissage',
      'henné ou sels métalliques'
    ],
    notes: 'Formule et notes, comme sur la fiche',
    reactions: 'Réactions',
    asOnCard: 'comme sur la fiche',
    save: 'Garder cette fiche'
  },
  visit: {
    steps: 'Étapes de la visite',
    head: 'Tête',
    plan: 'Plan',
    bowls: 'Bols',
    run: 'En cours',
    finish: 'Fin',
    canvas: 'Base',
    back: 'Agenda',
    draft: 'Ébauche'
  },
  shelf: {
    title: 'Étagère',
    find: "Chercher sur l'étagère",
    kinds: {
      lightener: 'Décolorants',
      developer: 'Oxydants',
      colour: 'Nuances',
      treatment: 'Soins',
      shampoo: 'Shampooings',
      conditioner: 'Après-shampooings',
      remover: 'Décapants',
      chelator: 'Chélateurs',
      water: 'Eau'
    },
    left: (g) => `${g} g`,
    unknown: 'non compté',
    perGram: (price) => `${price} le gramme`,
    add: 'Nouveau produit',
    addShade: 'Nouvelle nuance',
    kind: 'Type',
    words: 'Texte du tube',
    line: 'Gamme',
    class: 'Classe',
    classes: [
      { value: 'demi', words: 'Demi' },
      { value: 'permanent', words: 'Permanente' },
      { value: 'direct', words: 'Directe' },
      { value: 'cationic', words: 'Cationique' }
    ],
    level: 'Hauteur',
    tone: 'Reflet',
    tones: [
      { value: 'neutral', words: 'neutre' },
      { value: 'ash', words: 'cendré' },
      { value: 'gold', words: 'doré' },
      { value: 'copper', words: 'cuivré' },
      { value: 'red', words: 'rouge' },
      { value: 'mahogany', words: 'acajou' },
      { value: 'violet', words: 'violet' },
      { value: 'blue', words: 'bleu' },
      { value: 'red-violet', words: 'rouge violet' },
      { value: 'pearl', words: 'nacré' },
      { value: 'matt', words: 'mat' },
      { value: 'clear', words: 'transparent' }
    ],
    shade: (tone, level) => `${level} ${tone}`,
    peroxide: 'Peroxyde',
    scalp: 'Admis sur le cuir chevelu',
    parts: "Parts d'oxydant",
    longest: "Minutes maximales de l'étiquette",
    grams: 'Grammes ici',
    price: "Prix à l'unité",
    size: 'Grammes par unité',
    save: "Sur l'étagère",
    count: 'Compté',
    bought: 'Reçu',
    opened: 'Ouvert maintenant',
    order: 'À commander',
    orderNone: 'Rien à commander.',
    packs: (n) => s(n, 'unité', 'unités'),
    weeks: (n) => `tient ${s(n, 'semaine', 'semaines')}`,
    movements: 'Mouvements',
    empty: "Rien encore sur l'étagère."
  },
  salon: {
    title: 'Salon',
    name: 'Nom du salon',
    people: 'Personnes, une par ligne',
    chairs: 'Fauteuils, un par ligne',
    currency: 'Monnaie',
    emergency: "Numéro d'urgence",
    scale: 'La balance pèse par pas de',
    hands: 'Paires de mains',
    labour: "Prix d'une heure de travail",
    save: 'Enregistrer',
    devices: 'Appareils',
    thisOne: 'cet appareil',
    seen: (day) => `vu ici le ${day}`,
    revoke: "Retirer l'accès",
    revokeHold: "Maintenir deux secondes pour retirer l'accès",
    letIn: 'Donner accès à un appareil',
    role: 'Il peut',
    roles: [
      { value: 'assistant', words: 'Assister' },
      { value: 'colourist', words: 'Planifier et colorer' },
      { value: 'owner', words: 'Tout' }
    ],
    code: 'Code',
    codeWords: (at) => `Valable jusqu'à ${at}, pour un appareil.`,
    qr: (url) => `Code carré de l'adresse ${url}`,
    backup: 'Copies du livre',
    backupNow: 'Faire une copie maintenant',
    newest: 'La plus récente',
    noBackup: 'Pas encore de copie.',
    saved: 'Enregistré',
    roleOf: {
      assistant: 'assiste',
      colourist: 'planifie et colore',
      owner: 'peut tout faire'
    },
    onlyOwner: 'Seule une personne propriétaire change ceci.',
    program: (version) => `Programme ${version}`,
    language: 'Langue de cet appareil'
  },
  photo: { choose: 'Prendre une photo', failed: 'Seule une photo en JPEG peut être gardée.' }
}
