// Asks the server. Every answer is JSON; every failure is one line that says what, where and how
// to mend it.
export class ServerError extends Error {
  constructor(
    readonly status: number,
    readonly what: string,
    readonly where: string,
    readonly mend: string
  ) {
    super([what, mend].filter(Boolean).join('. '))
  }
  /** Nothing answered: the network or the server is away. */
  get away(): boolean {
    return this.status === 0
  }
}

type Asking = Omit<RequestInit, 'headers'> & { headers?: Record<string, string> }
export type Fetch = (path: string, init?: RequestInit) => Promise<Response>

async function read<T>(response: Response): Promise<T> {
  const text = await response.text()
  let body: unknown
  try {
    body = text ? JSON.parse(text) : {}
  } catch {
    throw new ServerError(response.status, 'the server answered something that is no JSON', '', '')
  }
  if (response.ok) return body as T
  const error = (body as { error?: Record<string, string> }).error ?? {}
  throw new ServerError(response.status, error.what ?? 'refused', error.where ?? '', error.mend ?? '')
}

export class Api {
  /** language: of the server's own sentences, as Accept-Language names it. */
  constructor(
    private readonly fetch: Fetch = (path, init) => window.fetch(path, init),
    private readonly language = 'en'
  ) {}

  private async ask(path: string, init: Asking): Promise<Response> {
    try {
      const headers = { 'Accept-Language': this.language, ...init.headers }
      return await this.fetch('/api/v1' + path, { credentials: 'same-origin', ...init, headers })
    } catch (fault) {
      if (fault instanceof DOMException && fault.name === 'AbortError') throw fault
      throw new ServerError(0, 'the server does not answer', path, '')
    }
  }

  async get<T>(path: string, signal?: AbortSignal): Promise<T> {
    return read<T>(await this.ask(path, signal ? { signal } : {}))
  }

  async post<T>(path: string, body: unknown, key?: string, signal?: AbortSignal): Promise<T> {
    const headers: Record<string, string> = { 'Content-Type': 'application/json' }
    if (key) headers['Idempotency-Key'] = key
    const init: Asking = { method: 'POST', headers, body: JSON.stringify(body) }
    if (signal) init.signal = signal
    return read<T>(await this.ask(path, init))
  }

  /** A photo as it is; the server looks into it and takes out what does not belong. */
  async postPhoto<T>(path: string, photo: Blob): Promise<T> {
    const headers = { 'Content-Type': 'image/jpeg' }
    return read<T>(await this.ask(path, { method: 'POST', headers, body: photo }))
  }
}

/** A key for one write, so that sending it twice counts once. Works without a secure context. */
export function freshKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
