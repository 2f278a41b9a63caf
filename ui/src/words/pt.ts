// The texts of the page in Portuguese, as in Portugal.
import { ptChair } from './pt_chair'
import { ptDesk } from './pt_desk'
import type { Words } from './shape'

const s = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`

export const pt: Words = {
  ...ptDesk,
  ...ptChair,
  locale: 'pt-PT',
  name: 'Huewright',
  nav: {
    label: 'Principal',
    today: 'Hoje',
    clients: 'Clientes',
    shelf: 'Prateleira',
    salon: 'Salão',
    workbench: 'Bancada',
    evidence: 'Resultados',
    enquiry: 'Consulta'
  },
  skip: 'Para o conteúdo',
  now: 'agora',
  level: 'nível',
  grams: 'g',
  min: 'min',
  where: 'Onde',
  source: 'Fonte',
  back: 'Voltar',
  done: 'Feito',
  close: 'Fechar',
  save: 'Guardar',
  cancel: 'Cancelar',
  loading: 'Um momento',
  tryAgain: 'Tentar de novo',
  less: (what) => `Menos: ${what}`,
  more: (what) => `Mais: ${what}`,
  noColour: 'cor desconhecida',
  screenCannot: 'Este ecrã não o consegue mostrar; o cabelo é mais intenso',
  closing:
    'Seguir as instruções do fabricante e a lei local; decide o profissional habilitado; ' +
    'fazer um teste de mecha.',
  notProof:
    'Não é uma prova: os ecrãs diferem e refletem. Comparar com uma mecha à luz do dia.',
  zone: {
    names: {
      root: 'raiz',
      roots: 'raízes',
      mid: 'meios',
      mids: 'meios',
      lengths: 'comprimentos',
      edges: 'contornos',
      ends: 'pontas',
      nape: 'nuca',
      back: 'atrás',
      crown: 'topo',
      sides: 'lados',
      hairline: 'contorno',
      rest: 'resto'
    },
    lower: (zone) => `${zone} (em baixo)`,
    of: (section, zone) => `${zone}, ${section}`
  },
  offline: {
    title: 'O servidor não responde',
    words: 'O que anotar fica guardado aqui e segue quando ele voltar. Os prazos continuam.',
    waiting: (n) => s(n, 'anotação por guardar', 'anotações por guardar')
  },
  undo: { undo: (n) => `Anular · ${n}` },
  wipe: {
    button: 'Limpar',
    title: 'Limpar o ecrã agora',
    left: (n) => `O toque está desligado ${n} s. Os tempos continuam.`
  },
  alarm: {
    soon: (zone) => `${zone}: tempo máximo em`,
    now: (zone) => `Parar: enxaguar já ${zone}`,
    over: 'passou o tempo máximo',
    seen: 'Vou já',
    open: 'Abrir a visita',
    running: 'Em curso'
  },
  pair: {
    title: 'Dar acesso a este dispositivo',
    words:
      'Num dispositivo que já tem acesso: Salão, depois Dar acesso. Escrever o código que aparece.',
    code: 'Código',
    device: 'Nome deste dispositivo',
    deviceHint: 'tablet junto à janela',
    go: 'Entrar'
  },
  today: {
    title: 'Hoje',
    earlier: 'Dia anterior',
    later: 'Dia seguinte',
    none: 'Não há marcações neste dia.',
    newVisit: 'Nova visita',
    tomorrow: 'Amanhã',
    chair: (chair) => `em ${chair}`,
    hello: (name) => `Bom dia${name ? ', ' + name : ''}`,
    clients: 'Procurar uma ficha para começar',
    late: (time) => `${time} de atraso`
  },
  stage: {
    asked: 'pedida',
    booked: 'marcada',
    'under way': 'em curso',
    finished: 'terminada',
    cancelled: 'cancelada'
  },
  clients: {
    title: 'Clientes',
    find: 'Procurar por nome ou número',
    none: (typed) => `Aqui ninguém se chama «${typed}».`,
    empty: 'Escrever parte de um nome ou os últimos algarismos de um número.',
    add: 'Nova ficha',
    card: 'Ficha antiga em papel',
    name: 'Nome',
    phone: 'Telefone',
    age: 'Idade',
    ages: [
      { value: 'adult', words: 'Maior de idade' },
      { value: '16 to 17', words: '16 a 17' },
      { value: 'under 16', words: 'Menos de 16' }
    ],
    erased: 'apagado'
  },
  client: {
    newVisit: 'Nova visita agora',
    book: 'Marcar data',
    day: 'Dia',
    time: 'Hora',
    wish: 'O que se deseja',
    open: 'Abrir a visita em curso',
    blocks: 'Nunca sem ler isto',
    askAgain: 'Perguntar de novo hoje.',
    noBlocks: 'Não consta nenhuma reação nem bloqueio. Perguntar de novo hoje.',
    tests: 'Testes na pele',
    noTests: 'Não consta nenhum teste na pele.',
    testState: {
      waits: 'na pele, por ler',
      valid: 'lido sem reação',
      lapsed: 'caducado: testar de novo',
      positive: 'reagiu: nunca este produto'
    },
    until: (day) => `vale até ${day}`,
    applied: (day) => `aplicado a ${day}`,
    readClear: 'Lido: sem reação',
    readPositive: 'Lido: reagiu',
    addTest: 'Teste na pele aplicado agora',
    testOf: 'Que tom',
    visits: 'Visitas',
    noVisits: 'Ainda não há visitas.',
    addBlock: 'Juntar reação ou bloqueio',
    blockTo: 'Reação a',
    happened: 'O que aconteceu',
    details: 'Pormenores',
    notes: 'Notas',
    consents: 'Consentimentos',
    export: 'Tirar tudo sobre esta pessoa',
    erase: 'Apagar esta pessoa',
    eraseHold: 'Manter dois segundos para apagar para sempre',
    history: 'Tudo o que se anotou',
    kinds: {
      allergy: 'alergia',
      consent: 'consentimento',
      curl: 'caracol',
      erased: 'apagado',
      hair_past: 'passado do cabelo',
      hair_test: 'teste do cabelo',
      person: 'pessoa',
      photo: 'fotografia',
      reaction: 'reação',
      skin_test: 'teste na pele',
      lesson: 'lição',
      learned: 'aprendido',
      payment: 'pagamento',
      enquiry: 'consulta'
    },
    price: 'Preço'
  },
  allergies: [
    { value: 'hair dye', words: 'Tinta de cabelo' },
    { value: 'black temporary tattoo', words: 'Tatuagem preta' },
    { value: 'lightener', words: 'Descolorante' },
    { value: 'other', words: 'Outra coisa' }
  ],
  card: {
    title: 'Ficha antiga em papel',
    words: 'O que importa para a próxima visita. O resto pode esperar.',
    last: 'Última visita',
    services: 'O que se fez',
    done: [
      'cor permanente',
      'cor demi',
      'descoloração',
      'alisamento',
      'permanente',
      'tratamento alisador',
      'henna ou sais metálicos'
    ],
    notes: 'Fórmula e notas, como na ficha',
    reactions: 'Reações',
    asOnCard: 'como na ficha',
    save: 'Guardar esta ficha'
  },
  visit: {
    steps: 'Passos da visita',
    head: 'Cabeça',
    plan: 'Plano',
    bowls: 'Tigelas',
    run: 'Em curso',
    finish: 'Final',
    canvas: 'Base',
    back: 'Hoje',
    draft: 'Rascunho'
  },
  shelf: {
    title: 'Prateleira',
    find: 'Procurar na prateleira',
    kinds: {
      lightener: 'Descolorantes',
      developer: 'Oxidantes',
      colour: 'Tons',
      treatment: 'Tratamentos',
      shampoo: 'Champôs',
      conditioner: 'Amaciadores',
      remover: 'Removedores',
      chelator: 'Quelantes',
      water: 'Água'
    },
    left: (g) => `${g} g`,
    unknown: 'por contar',
    perGram: (price) => `${price} por grama`,
    add: 'Novo produto',
    addShade: 'Novo tom',
    kind: 'Tipo',
    words: 'Texto do tubo',
    line: 'Linha',
    class: 'Classe',
    classes: [
      { value: 'demi', words: 'Demi' },
      { value: 'permanent', words: 'Permanente' },
      { value: 'direct', words: 'Direta' },
      { value: 'cationic', words: 'Catiónica' }
    ],
    level: 'Nível',
    tone: 'Reflexo',
    tones: [
      { value: 'neutral', words: 'neutro' },
      { value: 'ash', words: 'cinza' },
      { value: 'gold', words: 'dourado' },
      { value: 'copper', words: 'cobre' },
      { value: 'red', words: 'vermelho' },
      { value: 'mahogany', words: 'mogno' },
      { value: 'violet', words: 'violeta' },
      { value: 'blue', words: 'azul' },
      { value: 'red-violet', words: 'vermelho violeta' },
      { value: 'pearl', words: 'pérola' },
      { value: 'matt', words: 'mate' },
      { value: 'clear', words: 'transparente' }
    ],
    shade: (tone, level) => `${level} ${tone}`,
    peroxide: 'Peróxido',
    scalp: 'Admitido no couro cabeludo',
    parts: 'Partes de oxidante',
    longest: 'Minutos máximos do rótulo',
    grams: 'Gramas aqui',
    price: 'Preço de um',
    size: 'Gramas de um',
    save: 'Na prateleira',
    count: 'Contado',
    bought: 'Recebido',
    opened: 'Aberto agora',
    order: 'A encomendar',
    orderNone: 'Não há nada a encomendar.',
    packs: (n) => s(n, 'embalagem', 'embalagens'),
    weeks: (n) => `dura ${s(n, 'semana', 'semanas')}`,
    movements: 'Movimentos',
    empty: 'Ainda não há nada na prateleira.'
  },
  salon: {
    title: 'Salão',
    name: 'Nome do salão',
    people: 'Pessoas, uma por linha',
    chairs: 'Cadeiras, uma por linha',
    currency: 'Moeda',
    emergency: 'Número de emergência',
    scale: 'A balança pesa de',
    hands: 'Pares de mãos',
    labour: 'Preço de uma hora de trabalho',
    save: 'Guardar',
    devices: 'Dispositivos',
    thisOne: 'este dispositivo',
    seen: (day) => `última vez aqui a ${day}`,
    revoke: 'Retirar o acesso',
    revokeHold: 'Manter dois segundos para retirar o acesso',
    letIn: 'Dar acesso a um dispositivo',
    role: 'Pode',
    roles: [
      { value: 'assistant', words: 'Assistir' },
      { value: 'colourist', words: 'Planear e colorir' },
      { value: 'owner', words: 'Tudo' }
    ],
    code: 'Código',
    codeWords: (at) => `Vale até às ${at}, para um dispositivo.`,
    qr: (url) => `Código quadrado do endereço ${url}`,
    backup: 'Cópias do livro',
    backupNow: 'Fazer uma cópia agora',
    newest: 'A mais recente',
    noBackup: 'Ainda não há cópia.',
    saved: 'Guardado',
    roleOf: {
      assistant: 'assiste',
      colourist: 'planeia e colore',
      owner: 'pode fazer tudo'
    },
    onlyOwner: 'Só quem é proprietário muda isto.',
    program: (version) => `Programa ${version}`,
    language: 'Língua deste dispositivo'
  },
  photo: { choose: 'Tirar uma fotografia', failed: 'Só se pode guardar uma fotografia em JPEG.' }
}
