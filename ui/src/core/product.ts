/** An id from words, as shelves have them: "demi-red-hazel"; never empty, 60 letters at most. */
export function idFrom(words: string): string {
  const plain = words
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
  return plain || 'product'
}
