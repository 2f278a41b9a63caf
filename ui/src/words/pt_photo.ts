// Portuguese texts of reading a strand from a photo.
import type { PhotoWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const ptPhoto: PhotoWords = {
  reading: {
    title: 'Ler uma mecha numa foto',
    words: 'Manter a folha impressa ao lado da mecha, na mesma luz, e tirar ambas numa foto.',
    open: 'Lê-la numa foto',
    back: 'Voltar à cabeça',
    take: 'Tirar ou escolher uma foto',
    another: 'Outra foto',
    kept: 'Fotos desta visita',
    numbered: (n) => `Foto n.º ${n}`,
    picture: 'A foto',
    draw: 'Desenhar ao longo da mecha, da raiz à ponta: um traço, ou um toque por ponto.',
    keys: 'As setas movem um ponto; Enter acrescenta um.',
    noLine: 'A linha sobre a mecha: ainda nenhuma',
    line: (n, of) => `A linha sobre a mecha: ponto ${n} de ${of}`,
    scalp: 'raiz',
    tip: 'ponta',
    move: 'Mover a linha',
    before: 'Ponto anterior',
    after: 'Ponto seguinte',
    left: 'Esquerda',
    up: 'Cima',
    down: 'Baixo',
    right: 'Direita',
    more: 'Mais um ponto',
    less: 'Tirar este ponto',
    anew: 'Desenhar de novo',
    length: 'Comprimento da mecha, esticada',
    go: 'Ler a mecha',
    working: 'A ler a foto',
    found: (n) => s(n, 'troço de uma só cor', 'troços de uma só cor'),
    strip: 'O que a foto mostra, da raiz à ponta',
    place: (from, to) => `${from} a ${to} cm`,
    levels: (low, high) => `${low} a ${high}, 8 vezes em 10`,
    lab: 'Cor à luz do dia',
    odds: 'Cada ± vale 8 vezes em 10: carta, luz e cabelo juntos.',
    patches: (middle, most) =>
      `Cada amostra, lida pelo ajuste das outras, desvia-se ${middle} CIEDE2000 no meio e ${most} no máximo.`,
    grey: 'Um cartão cinzento só dá o branco e a exposição, por isso a faixa é larga.',
    leftOut: (n) =>
      `${s(n, 'amostra', 'amostras')} de fora: com brilho, tapadas ou demasiado claras.`,
    look: 'Condiz com o que se vê? Uma mecha que brilha ou pende torta lê-se demasiado clara.',
    into: 'Levá-la para a cabeça',
    taken: (n) => `${s(n, 'zona tirada', 'zonas tiradas')} da foto.`,
    undo: 'Desfazer',
    byPhoto: 'da foto',
    refused: 'Desta foto nada é lido',
    noSheet: 'Não há folha na foto',
    busy: 'Outra foto está a ser lida; esta é a seguinte.',
    sheet: 'Imprimir a folha',
    sheetWords:
      'Impressa uma vez em tamanho real, recortada e posta à volta de uma carta de 24 amostras ou de um cartão cinzento.',
    chart: 'O que está na janela',
    charts: [
      { value: 'after-2014', words: '24 amostras, desde novembro de 2014' },
      { value: 'before-2014', words: '24 amostras, antes de novembro de 2014' },
      { value: 'grey', words: 'Cartão cinzento, 18 %' }
    ],
    paper: 'Papel',
    papers: [
      { value: 'a4', words: 'A4' },
      { value: 'letter', words: 'Carta' }
    ],
    windowWide: 'Janela, largura',
    windowHigh: 'Janela, altura',
    mm: 'mm',
    openSheet: 'Abrir a folha',
    second: 'Comparar com uma segunda foto',
    secondWords: 'A mesma mecha mais tarde, no mesmo lugar, com o mesmo telefone.',
    first: 'Primeira foto',
    later: 'Segunda foto',
    compare: 'Comparar as duas',
    change: 'O que mudou',
    lighter: (n) => `${n} níveis mais claro`,
    darker: (n) => `${n} níveis mais escuro`,
    alike: 'nem mais claro nem mais escuro',
    oneLight:
      'A mesma luz e câmara tirou ambas, por isso a maior parte do que uma foto erra anula-se.',
    fromTo: (from, to) => `de ${from} a ${to}`
  }
}
