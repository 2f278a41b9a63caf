// Where the page is, as an address after #: "/visits/ID/plan". The server serves one page.
export interface Place {
  parts: string[]
  query: Record<string, string>
}

export function placeOf(hash: string): Place {
  const bare = hash.replace(/^#\/?/, '')
  const [path = '', rest = ''] = bare.split('?')
  const parts = path.split('/').filter(Boolean).map(decodeURIComponent)
  return { parts, query: Object.fromEntries(new URLSearchParams(rest)) }
}

/** The one-time code of a pairing address: "#code=482913". */
export function codeOf(hash: string): string | null {
  const found = hash.match(/^#\/?code=([0-9A-Za-z-]{4,20})$/)
  return found?.[1] ?? null
}

export const to = (...parts: string[]): string => '#/' + parts.map(encodeURIComponent).join('/')
