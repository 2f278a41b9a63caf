// Portuguese texts of the screens away from the chair, and of the picture of a tress.
import type { DeskWords } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const ptDesk: DeskWords = {
  workbench: {
    title: 'Bancada',
    words: 'Uma mecha de ninguém em particular: experimentar, comparar, explicar. Nenhum caminho experimentado aqui fica guardado.',
    side: ['Primeira opção', 'Segunda opção'],
    edit: (side) => `Mudar a ${side.toLowerCase()}`,
    same: 'Igualar as duas',
    differ: (list) => `Diferem em: ${list}.`,
    alike: 'As duas são iguais.',
    chart: (side) => `Gráfico da mecha, ${side.toLowerCase()}`,
    canvas: 'Base, nível',
    strand_um: 'Espessura do fio',
    length_cm: 'Comprimento',
    strength: 'Força do oxidante',
    parts: 'Partes de oxidante para uma',
    thinning: 'Diluído com champô',
    minutes: 'Minutos no cabelo',
    cover: 'Cobertura',
    open: 'Ao ar',
    covered: 'Coberto',
    water: 'Água no cabelo',
    waterUnit: 'g/g',
    tone: 'Cor por cima',
    none: 'Nenhuma',
    depth: 'O seu nível',
    colour_min: 'Os seus minutos',
    after: 'Após o clareamento',
    end: 'Após a cor',
    mix: (percent) => `${percent} % de peróxido na mistura`,
    wear: (percent) => `desgaste: ${percent} % do que a fibra pode dar`,
    lifted: 'Sombras clareadas'
  },
  evidence: {
    moved: 'O que o salão mudou',
    next: 'O que ensinaria mais agora',
    title: 'Resultados',
    words: 'O que se leu no fim, ao lado do que se esperava.',
    span: 'Desde há',
    spans: [
      { value: 3, words: 'Três meses' },
      { value: 12, words: 'Um ano' },
      { value: 24, words: 'Dois anos' },
      { value: 120, words: 'Tudo' }
    ],
    none: 'Neste tempo não se leu nenhum resultado ao lado de um plano.',
    held: (inTen) => `${inTen} em cada 10`,
    heldWords: (n) =>
      `ficaram dentro da sua margem, onde devem ficar 8 (${s(n, 'zona lida', 'zonas lidas')}).`,
    zones: (n) => s(n, 'zona', 'zonas'),
    off: (by, way) => `${by} níveis ${way} do que o esperado`,
    right: 'como esperado, em média',
    lighter: 'mais claro',
    darker: 'mais escuro',
    scatter: (by) => `dispersão de ${by} níveis`,
    width: (by) => `margem de ${by} níveis`,
    picture: 'Lido ao lado de esperado, uma marca por zona',
    expected: 'nível esperado',
    found: 'nível lido',
    inside: 'dentro da margem',
    outside: 'fora',
    by: {
      by_zone: 'Por zona',
      by_start_level: 'Por nível inicial',
      by_reader: 'Por quem lê',
      by_shade: 'Por tom'
    },
    few: 'poucas para avaliar',
    point: (zone, day, found, low, high) => `${zone}, ${day}: lido ${found}, esperado ${low} a ${high}`,
    list: 'Todos os resultados em lista',
    onlyColourist: 'Visível para coloristas e proprietários.'
  },
  strand: {
    title: 'Teste de mecha',
    words: (bowl) =>
      `Uma mecha da zona na mistura da tigela ${bowl}, enxaguada, limpa e lida. ` +
      'Apura o plano desta cabeça.',
    on: 'Na mecha agora',
    again: 'Recomeçar',
    minutes: 'Minutos que esteve',
    level: 'Nível a que chegou',
    stretch: 'A sua elasticidade, molhada',
    stretches: [
      { value: 'springs_back', words: 'Volta' },
      { value: 'stays_stretched', words: 'Fica esticada' },
      { value: 'gummy', words: 'Como goma' },
      { value: 'snaps', words: 'Parte' }
    ],
    passed: 'Passou',
    failed: 'Falhou',
    changed: 'O que a mecha mudou'
  },
  tress: {
    name: (words) => `Imagem de uma mecha: ${words}`,
    note: 'Uma imagem, não uma promessa: a luz, o movimento e cada cabeça diferem.',
    title: 'Em cabelo'
  },
  enquiry: {
    title: 'Consulta',
    words: 'Uma margem prudente para quem pergunta. Nada se guarda até haver uma visita.',
    length: 'Comprimento, esticado',
    level: 'Nível atual, como foi dito',
    white: 'Brancos',
    lightened: 'Vezes descolorado',
    coloured: 'Cores por cima',
    when: 'Desejado para',
    answer: 'Calcular uma margem',
    time: 'Na cadeira',
    price: 'Preço',
    materials: 'Só materiais: o preço da hora ainda não está posto, em Salão.',
    visits: (low, high) => (low === high ? s(low, 'visita', 'visitas') : `${low} a ${high} visitas`),
    deposit: 'Sinal para reservar o dia',
    depositOf: (percent) => `${percent} % do preço mais baixo`,
    tests: 'Teste na pele',
    testsWords: (by) =>
      `Aplicar até ${by}; ler 48 horas depois. Sem ele, nada de coloração de oxidação.`,
    noTests: 'Nenhum dos caminhos pede teste na pele.',
    arrive: 'Como vir',
    arriveList: [
      'Cabelo seco, sem lavar há um dia, sem óleo nem laca.',
      'Sem twists nem tranças desfeitos no mesmo dia.',
      'Trazer fotografias do desejo e os nomes do que se usou em casa.',
      'Dizer antes: reações, medicamentos, gravidez, couro cabeludo dorido.'
    ],
    arriveSource: 'Prática comum, sem fonte.',
    none: 'Nada nesta prateleira se aproxima num dia. Propor primeiro ver o cabelo.',
    careful: 'Dito, não visto: a margem reduz-se quando se lê o cabelo.',
    book: 'Aos clientes'
  }
}
