// The texts of the page in Spanish.
import { esChair } from './es_chair'
import { esDesk } from './es_desk'
import type { Words } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const es: Words = {
  ...esDesk,
  ...esChair,
  locale: 'es',
  name: 'Huewright',
  nav: {
    label: 'Principal',
    today: 'Hoy',
    clients: 'Clientes',
    shelf: 'Estante',
    salon: 'Salón',
    workbench: 'Banco',
    evidence: 'Resultados',
    enquiry: 'Consulta'
  },
  skip: 'Al contenido',
  now: 'ahora',
  level: 'nivel',
  grams: 'g',
  min: 'min',
  where: 'Dónde',
  source: 'Fuente',
  back: 'Atrás',
  done: 'Hecho',
  close: 'Cerrar',
  save: 'Guardar',
  cancel: 'Cancelar',
  loading: 'Un momento',
  tryAgain: 'Probar de nuevo',
  less: (what) => `Menos: ${what}`,
  more: (what) => `Más: ${what}`,
  noColour: 'color desconocido',
  screenCannot: 'Esta pantalla no lo puede mostrar; el cabello es más intenso',
  closing:
    'Seguir las instrucciones del fabricante y la ley local; decide la persona profesional ' +
    'autorizada; hacer una prueba de mechón.',
  notProof:
    'No es una prueba: las pantallas difieren y reflejan. Compare con un mechón a la luz del día.',
  zone: {
    names: {
      root: 'raíz',
      roots: 'raíces',
      mid: 'medios',
      mids: 'medios',
      lengths: 'largos',
      edges: 'bordes',
      ends: 'puntas',
      nape: 'nuca',
      back: 'atrás',
      crown: 'coronilla',
      sides: 'lados',
      hairline: 'contorno',
      rest: 'resto'
    },
    lower: (zone) => `${zone} (abajo)`,
    of: (section, zone) => `${zone}, ${section}`
  },
  offline: {
    title: 'El servidor no responde',
    words: 'Lo que anote se guarda aquí y se envía cuando vuelva. Los plazos siguen corriendo.',
    waiting: (n) => s(n, 'anotación sin guardar', 'anotaciones sin guardar')
  },
  undo: { undo: (n) => `Deshacer · ${n}` },
  wipe: {
    button: 'Limpiar',
    title: 'Limpie ahora la pantalla',
    left: (n) => `El tacto está apagado ${n} s. Los tiempos siguen.`
  },
  alarm: {
    soon: (zone) => `${zone}: tiempo máximo en`,
    now: (zone) => `Alto: enjuagar ya ${zone}`,
    over: 'pasado su tiempo máximo',
    seen: 'Voy',
    open: 'Abrir la visita',
    running: 'En curso'
  },
  pair: {
    title: 'Dar acceso a este dispositivo',
    words:
      'En un dispositivo que ya tiene acceso: Salón, luego Dar acceso. Escriba el código que muestra.',
    code: 'Código',
    device: 'Nombre de este dispositivo',
    deviceHint: 'tableta de la ventana',
    go: 'Entrar'
  },
  today: {
    title: 'Hoy',
    earlier: 'Día anterior',
    later: 'Día siguiente',
    none: 'No hay citas este día.',
    newVisit: 'Nueva visita',
    tomorrow: 'Mañana',
    chair: (chair) => `en ${chair}`,
    hello: (name) => `Buenos días${name ? ', ' + name : ''}`,
    clients: 'Busque una clienta o un cliente para empezar',
    late: (time) => `${time} de retraso`
  },
  stage: {
    asked: 'pedida',
    booked: 'reservada',
    'under way': 'en curso',
    finished: 'terminada',
    cancelled: 'cancelada'
  },
  clients: {
    title: 'Clientes',
    find: 'Buscar por nombre o número',
    none: (typed) => `Aquí nadie se llama «${typed}».`,
    empty: 'Escriba parte de un nombre o las últimas cifras de un número.',
    add: 'Nueva ficha',
    card: 'Ficha antigua en papel',
    name: 'Nombre',
    phone: 'Teléfono',
    age: 'Edad',
    ages: [
      { value: 'adult', words: 'Mayor de edad' },
      { value: '16 to 17', words: '16 a 17' },
      { value: 'under 16', words: 'Menos de 16' }
    ],
    erased: 'borrado'
  },
  client: {
    newVisit: 'Nueva visita ahora',
    book: 'Reservar fecha',
    day: 'Día',
    time: 'Hora',
    wish: 'Qué desea',
    open: 'Abrir la visita en curso',
    blocks: 'Nunca sin leer esto',
    askAgain: 'Preguntar otra vez hoy.',
    noBlocks: 'No consta ninguna reacción ni bloqueo. Preguntar otra vez hoy.',
    tests: 'Pruebas en la piel',
    noTests: 'No consta ninguna prueba en la piel.',
    testState: {
      waits: 'en la piel, por leer',
      valid: 'leída limpia',
      lapsed: 'caducada: repetir la prueba',
      positive: 'reaccionó: nunca este producto'
    },
    until: (day) => `vale hasta el ${day}`,
    applied: (day) => `aplicada el ${day}`,
    readClear: 'Leída: limpia',
    readPositive: 'Leída: reaccionó',
    addTest: 'Prueba en la piel aplicada ahora',
    testOf: 'Qué tono',
    visits: 'Visitas',
    noVisits: 'Todavía no hay visitas.',
    addBlock: 'Añadir reacción o bloqueo',
    blockTo: 'Reacción a',
    happened: 'Qué pasó',
    details: 'Detalles',
    notes: 'Notas',
    consents: 'Consentimientos',
    export: 'Sacar todo lo de esta persona',
    erase: 'Borrar a esta persona',
    eraseHold: 'Mantener dos segundos para borrar para siempre',
    history: 'Todo lo anotado',
    kinds: {
      allergy: 'alergia',
      consent: 'consentimiento',
      curl: 'rizo',
      erased: 'borrado',
      hair_past: 'pasado del cabello',
      hair_test: 'prueba del cabello',
      person: 'persona',
      photo: 'foto',
      reaction: 'reacción',
      skin_test: 'prueba en la piel',
      lesson: 'lección',
      learned: 'aprendido',
      payment: 'pago',
      enquiry: 'consulta'
    },
    price: 'Precio'
  },
  allergies: [
    { value: 'hair dye', words: 'Tinte' },
    { value: 'black temporary tattoo', words: 'Tatuaje negro' },
    { value: 'lightener', words: 'Decolorante' },
    { value: 'other', words: 'Otra cosa' }
  ],
  card: {
    title: 'Ficha antigua en papel',
    words: 'Lo que importa para la próxima visita. Lo demás puede esperar.',
    last: 'Última visita',
    services: 'Qué se hizo',
    done: [
      'color permanente',
      'color demi',
      'decoloración',
      'alisado',
      'permanente',
      'tratamiento alisador',
      'henna o sales metálicas'
    ],
    notes: 'Fórmula y notas, como en la ficha',
    reactions: 'Reacciones',
    asOnCard: 'como en la ficha',
    save: 'Guardar esta ficha'
  },
  visit: {
    steps: 'Pasos de la visita',
    head: 'Cabeza',
    plan: 'Plan',
    bowls: 'Boles',
    run: 'En curso',
    finish: 'Final',
    canvas: 'Base',
    back: 'Hoy',
    draft: 'Borrador'
  },
  shelf: {
    title: 'Estante',
    find: 'Buscar en el estante',
    kinds: {
      lightener: 'Decolorantes',
      developer: 'Oxidantes',
      colour: 'Tonos',
      treatment: 'Tratamientos',
      shampoo: 'Champús',
      conditioner: 'Acondicionadores',
      remover: 'Removedores',
      chelator: 'Quelantes',
      water: 'Agua'
    },
    left: (g) => `${g} g`,
    unknown: 'sin contar',
    perGram: (price) => `${price} por gramo`,
    add: 'Nuevo producto',
    addShade: 'Nuevo tono',
    kind: 'Tipo',
    words: 'Texto del tubo',
    line: 'Línea',
    class: 'Clase',
    classes: [
      { value: 'demi', words: 'Demi' },
      { value: 'permanent', words: 'Permanente' },
      { value: 'direct', words: 'Directo' },
      { value: 'cationic', words: 'Catiónico' }
    ],
    level: 'Nivel',
    tone: 'Reflejo',
    tones: [
      { value: 'neutral', words: 'neutro' },
      { value: 'ash', words: 'ceniza' },
      { value: 'gold', words: 'dorado' },
      { value: 'copper', words: 'cobre' },
      { value: 'red', words: 'rojo' },
      { value: 'mahogany', words: 'caoba' },
      { value: 'violet', words: 'violeta' },
      { value: 'blue', words: 'azul' },
      { value: 'red-violet', words: 'rojo violeta' },
      { value: 'pearl', words: 'perla' },
      { value: 'matt', words: 'mate' },
      { value: 'clear', words: 'transparente' }
    ],
    shade: (tone, level) => `${level} ${tone}`,
    peroxide: 'Peróxido',
    scalp: 'Admitido en el cuero cabelludo',
    parts: 'Partes de oxidante',
    longest: 'Minutos máximos de la etiqueta',
    grams: 'Gramos aquí',
    price: 'Precio de uno',
    size: 'Gramos de uno',
    save: 'Al estante',
    count: 'Contado',
    bought: 'Recibido',
    opened: 'Abierto ahora',
    order: 'Por pedir',
    orderNone: 'No hay nada que pedir.',
    packs: (n) => s(n, 'envase', 'envases'),
    weeks: (n) => `dura ${s(n, 'semana', 'semanas')}`,
    movements: 'Movimientos',
    empty: 'Todavía no hay nada en el estante.'
  },
  salon: {
    title: 'Salón',
    name: 'Nombre del salón',
    people: 'Personas, una por línea',
    chairs: 'Sillones, uno por línea',
    currency: 'Moneda',
    emergency: 'Número de emergencias',
    scale: 'La báscula pesa de',
    hands: 'Pares de manos',
    labour: 'Precio de una hora de trabajo',
    save: 'Guardar',
    devices: 'Dispositivos',
    thisOne: 'este dispositivo',
    seen: (day) => `última vez aquí el ${day}`,
    revoke: 'Quitar el acceso',
    revokeHold: 'Mantener dos segundos para quitar el acceso',
    letIn: 'Dar acceso a un dispositivo',
    role: 'Puede',
    roles: [
      { value: 'assistant', words: 'Asistir' },
      { value: 'colourist', words: 'Planear y teñir' },
      { value: 'owner', words: 'Todo' }
    ],
    code: 'Código',
    codeWords: (at) => `Vale hasta las ${at}, para un dispositivo.`,
    qr: (url) => `Código cuadrado de la dirección ${url}`,
    backup: 'Copias del libro',
    backupNow: 'Hacer una copia ahora',
    newest: 'La más reciente',
    noBackup: 'Todavía no hay copia.',
    saved: 'Guardado',
    roleOf: {
      assistant: 'asiste',
      colourist: 'planea y tiñe',
      owner: 'puede hacerlo todo'
    },
    onlyOwner: 'Solo una persona propietaria cambia esto.',
    program: (version) => `Programa ${version}`,
    language: 'Idioma de este dispositivo'
  },
  photo: { choose: 'Hacer una foto', failed: 'Solo se puede guardar una foto en JPEG.' }
}
