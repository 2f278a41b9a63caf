// Which language the page speaks: the one chosen on this device, else the browser's, else English.
// It is settled as the page loads; another choice loads the page again.
export const kLanguages = [
  { code: 'en', name: 'English' },
  { code: 'es', name: 'Español' },
  { code: 'fr', name: 'Français' },
  { code: 'pt', name: 'Português' }
] as const
export type Language = (typeof kLanguages)[number]['code']

const kKept = 'huewright-language'

const known = (tag: string | null | undefined): Language | undefined =>
  kLanguages.find((one) => one.code === tag?.split('-')[0]?.toLowerCase())?.code

/** chosen: what the device keeps. wanted: the browser's languages, the dearest first. */
export const languageOf = (chosen: string | null, wanted: readonly string[]): Language =>
  known(chosen) ?? wanted.map(known).find(Boolean) ?? 'en'

function kept(): string | null {
  try {
    return localStorage.getItem(kKept)
  } catch {
    return null
  }
}

/** English where there is no page, as in tests. */
export const language: Language =
  typeof document === 'undefined' ? 'en' : languageOf(kept(), navigator.languages)

export function choose(other: Language): void {
  try {
    localStorage.setItem(kKept, other)
  } catch {
    return // a device that may keep nothing goes on in its browser's language
  }
  location.reload()
}
