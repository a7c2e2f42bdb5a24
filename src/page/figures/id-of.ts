/** An id out of a name: 'Salchicha de Jalapeño, 1/4 lb' is 'salchicha-de-jalapeno-1-4-lb'. */
export const idOf = (name: string): string =>
  name
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 60)
    .replaceAll(/^-|-$/g, '');
