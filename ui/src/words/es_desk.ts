// Spanish texts of the screens away from the chair, and of the picture of a tress.
import type { DeskWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const esDesk: DeskWords = {
  workbench: {
    title: 'Banco de pruebas',
    words: 'Un mechón de nadie en particular: probar, comparar, explicar. Ningún camino que se prueba aquí se guarda.',
    side: ['Primera opción', 'Segunda opción'],
    edit: (side) => `Cambiar la ${side.toLowerCase()}`,
    same: 'Igualar las dos',
    differ: (list) => `Difieren en: ${list}.`,
    alike: 'Las dos son iguales.',
    chart: (side) => `Gráfico del mechón, ${side.toLowerCase()}`,
    canvas: 'Base, nivel',
    strand_um: 'Grosor del cabello',
    length_cm: 'Largo',
    strength: 'Fuerza del oxidante',
    parts: 'Partes de oxidante por una',
    thinning: 'Rebajado con champú',
    minutes: 'Minutos en el cabello',
    cover: 'Cubierta',
    open: 'Al aire',
    covered: 'Cubierto',
    water: 'Agua en el cabello',
    waterUnit: 'g/g',
    tone: 'Color encima',
    none: 'Ninguno',
    depth: 'Su nivel',
    colour_min: 'Sus minutos',
    after: 'Tras el aclarado',
    end: 'Tras el color',
    mix: (percent) => `${percent} % de peróxido en la mezcla`,
    wear: (percent) => `desgaste: ${percent} % de lo que la fibra puede dar`,
    lifted: 'Sombras aclaradas'
  },
  evidence: {
    moved: 'Lo que el salón ha movido',
    next: 'Qué enseñaría más ahora',
    title: 'Resultados',
    words: 'Lo leído al final, junto a lo que se esperaba.',
    span: 'Desde hace',
    spans: [
      { value: 3, words: 'Tres meses' },
      { value: 12, words: 'Un año' },
      { value: 24, words: 'Dos años' },
      { value: 120, words: 'Todo' }
    ],
    none: 'En este tiempo no se ha leído ningún resultado junto a un plan.',
    held: (inTen) => `${inTen} de cada 10`,
    heldWords: (n) =>
      `quedaron dentro de su margen, donde deberían quedar 8 (${s(n, 'zona leída', 'zonas leídas')}).`,
    zones: (n) => s(n, 'zona', 'zonas'),
    off: (by, way) => `${by} niveles ${way} de lo esperado`,
    right: 'como se esperaba, en promedio',
    lighter: 'más claro',
    darker: 'más oscuro',
    scatter: (by) => `dispersión de ${by} niveles`,
    width: (by) => `margen de ${by} niveles`,
    picture: 'Leído junto a esperado, una marca por zona',
    expected: 'nivel esperado',
    found: 'nivel leído',
    inside: 'dentro de su margen',
    outside: 'fuera',
    by: {
      by_zone: 'Por zona',
      by_start_level: 'Por nivel inicial',
      by_reader: 'Por quien lee',
      by_shade: 'Por tono'
    },
    few: 'muy pocas para juzgar',
    point: (zone, day, found, low, high) =>
      `${zone}, ${day}: leído ${found}, esperado ${low} a ${high}`,
    list: 'Todos los resultados en lista',
    onlyColourist: 'Esto lo ven coloristas y propietarios.'
  },
  strand: {
    title: 'Prueba de mechón',
    words: (bowl) =>
      `Un mechón de la zona en la mezcla del bol ${bowl}, enjuagado, secado con toalla y leído. ` +
      'Afina el plan de esta cabeza.',
    on: 'En el mechón ahora',
    again: 'Empezar de nuevo',
    minutes: 'Minutos que estuvo',
    level: 'Nivel al que llegó',
    stretch: 'Su elasticidad, mojado',
    stretches: [
      { value: 'springs_back', words: 'Vuelve' },
      { value: 'stays_stretched', words: 'Queda estirado' },
      { value: 'gummy', words: 'Gomoso' },
      { value: 'snaps', words: 'Se rompe' }
    ],
    passed: 'Salió bien',
    failed: 'Falló',
    changed: 'Lo que cambió el mechón'
  },
  tress: {
    name: (words) => `Imagen de una mecha: ${words}`,
    note: 'Una imagen, no una promesa: la luz, el movimiento y cada cabeza cambian.',
    title: 'Como cabello'
  },
  enquiry: {
    title: 'Consulta',
    words: 'Un margen prudente para quien pregunta. No se guarda nada hasta que haya una visita.',
    length: 'Largo, estirado',
    level: 'Nivel actual, según dice',
    white: 'Canas',
    lightened: 'Veces decolorado',
    coloured: 'Colores encima',
    when: 'Deseado para',
    answer: 'Calcular un margen',
    time: 'En el sillón',
    price: 'Precio',
    materials: 'Solo materiales: el precio de la hora aún no se ha puesto, en Salón.',
    visits: (low, high) => (low === high ? s(low, 'visita', 'visitas') : `${low} a ${high} visitas`),
    deposit: 'Señal para reservar el día',
    depositOf: (percent) => `${percent} % del precio más bajo`,
    tests: 'Prueba en la piel',
    testsWords: (by) =>
      `Aplicar antes de ${by}; leer 48 horas después. Sin ella, nada de color de oxidación.`,
    noTests: 'Ninguno de los caminos pide una prueba en la piel.',
    arrive: 'Cómo venir',
    arriveList: [
      'Cabello seco, sin lavar desde hace un día, sin aceite ni laca.',
      'Sin twists ni trenzas deshechos el mismo día.',
      'Traer fotos de lo que desea y los nombres de lo usado en casa.',
      'Decir antes: reacciones, medicamentos, embarazo, cuero cabelludo dolorido.'
    ],
    arriveSource: 'Práctica común, sin fuente.',
    none: 'Nada de este estante se acerca en un día. Ofrezca antes ver el cabello.',
    careful: 'Contado, no visto: el margen se reduce al leer el cabello.',
    book: 'A los clientes'
  }
}
