// Spanish texts of reading a strand from a photo.
import type { PhotoWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const esPhoto: PhotoWords = {
  reading: {
    title: 'Leer un mechón en una foto',
    words: 'Sostener la hoja impresa junto al mechón, con la misma luz, y tomar ambos en una foto.',
    open: 'Leerlo en una foto',
    back: 'Volver a la cabeza',
    take: 'Tomar o elegir una foto',
    another: 'Otra foto',
    kept: 'Fotos de esta visita',
    numbered: (n) => `Foto n.º ${n}`,
    picture: 'La foto',
    draw: 'Dibujar a lo largo del mechón, de la raíz a la punta: un trazo, o un toque por punto.',
    keys: 'Las flechas mueven un punto; Intro añade uno.',
    noLine: 'La línea sobre el mechón: todavía ninguna',
    line: (n, of) => `La línea sobre el mechón: punto ${n} de ${of}`,
    scalp: 'raíz',
    tip: 'punta',
    move: 'Mover la línea',
    before: 'Punto anterior',
    after: 'Punto siguiente',
    left: 'Izquierda',
    up: 'Arriba',
    down: 'Abajo',
    right: 'Derecha',
    more: 'Un punto más',
    less: 'Quitar este punto',
    anew: 'Dibujar de nuevo',
    length: 'Largo del mechón, estirado',
    go: 'Leer el mechón',
    working: 'Leyendo la foto',
    found: (n) => s(n, 'tramo de un solo color', 'tramos de un solo color'),
    strip: 'Lo que muestra la foto, de la raíz a la punta',
    place: (from, to) => `${from} a ${to} cm`,
    levels: (low, high) => `${low} a ${high}, 8 veces de 10`,
    lab: 'Color a la luz del día',
    odds: 'Cada ± se cumple 8 veces de 10: carta, luz y cabello juntos.',
    patches: (middle, most) =>
      `Cada campo, leído por el ajuste de los demás, se desvía ${middle} CIEDE2000 en el medio y ${most} como mucho.`,
    grey: 'Una tarjeta gris solo da el blanco y la exposición, así que la banda es ancha.',
    leftOut: (n) =>
      `${s(n, 'campo', 'campos')} sin usar: con brillo, tapados o demasiado claros.`,
    look: '¿Concuerda con lo que se ve? Un mechón que brilla o cuelga torcido se lee demasiado claro.',
    into: 'Llevarlo a la cabeza',
    taken: (n) => `${s(n, 'zona tomada', 'zonas tomadas')} de la foto.`,
    undo: 'Deshacer',
    byPhoto: 'de la foto',
    refused: 'De esta foto no se lee nada',
    noSheet: 'No hay hoja en la foto',
    busy: 'Se está leyendo otra foto; esta va después.',
    sheet: 'Imprimir la hoja',
    sheetWords:
      'Impresa una vez a tamaño real, recortada y puesta alrededor de una carta de 24 campos o de una tarjeta gris.',
    chart: 'Qué hay en su ventana',
    charts: [
      { value: 'after-2014', words: '24 campos, desde noviembre de 2014' },
      { value: 'before-2014', words: '24 campos, antes de noviembre de 2014' },
      { value: 'grey', words: 'Tarjeta gris, 18 %' }
    ],
    paper: 'Papel',
    papers: [
      { value: 'a4', words: 'A4' },
      { value: 'letter', words: 'Carta' }
    ],
    windowWide: 'Ventana, ancho',
    windowHigh: 'Ventana, alto',
    mm: 'mm',
    openSheet: 'Abrir la hoja',
    second: 'Comparar con una segunda foto',
    secondWords: 'El mismo mechón más tarde, en el mismo lugar, con el mismo teléfono.',
    first: 'Primera foto',
    later: 'Segunda foto',
    compare: 'Comparar las dos',
    change: 'Qué cambió',
    lighter: (n) => `${n} niveles más claro`,
    darker: (n) => `${n} niveles más oscuro`,
    alike: 'ni más claro ni más oscuro',
    oneLight:
      'Una misma luz y cámara tomó ambas, así que la mayor parte de lo que una foto yerra se anula.',
    fromTo: (from, to) => `de ${from} a ${to}`
  }
}
