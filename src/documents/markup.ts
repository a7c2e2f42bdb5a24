const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text as it stands in HTML, between tags or within quotes. */
export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);
}
