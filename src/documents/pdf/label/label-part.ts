/**
 * A label in one piece, or in two for packs that take two smaller ones. In the United States the front is the principal
 * display panel: the name with what stands beside it, storage, the place of the legend and the net weight, which must
 * stand there (9 CFR 317.2(c), (h), (i), (k), secondary). The back is the information panel, the first one to its right
 * (317.2(m), secondary): the ingredient statement (317.2(f), secondary), the panel of nutrition (317.302(a)), and the
 * name of the plant and safe handling, which may stand there too (317.2(g), (l), from memory, verify). Name and net
 * weight stay together in the European Union as well (Regulation (EU) No 1169/2011 Art. 13(5), from memory, verify).
 */
export const LABEL_PARTS = ['whole', 'front', 'back'] as const;
export type LabelPart = (typeof LABEL_PARTS)[number];
