import type { Permission } from '../../api/access/roles.ts';
import type { SectionView } from './section.ts';
import type { SHELL } from './shell-words.ts';

export interface Section {
  /** First part of its address, and the name of its words. */
  readonly id: keyof (typeof SHELL)['en']['sections'];
  /** A path drawn in 24 by 24. */
  readonly drawing: string;
  readonly may: Permission;
  readonly load: () => Promise<{ readonly default: SectionView }>;
}

/** The first run: a place of its own that stands in no list. */
export const START: Pick<Section, 'load'> = { load: () => import('../start/section.tsx') };

/** The parts of the page, in the order of the work. Each is fetched when it is first gone to. */
export const SECTIONS: readonly Section[] = [
  {
    id: 'blend',
    drawing: 'M4 18h16M4 18V9h5v9M9 18V5h6v13M15 18v-6h5v6',
    may: 'read',
    load: () => import('../blend/section.tsx'),
  },
  {
    id: 'batches',
    drawing: 'M5 8h14l-2 10a2 2 0 0 1-2 2H9a2 2 0 0 1-2-2zM8 8V5h8v3M9 12h6',
    may: 'read',
    load: () => import('../batches/section.tsx'),
  },
  {
    id: 'stock',
    drawing: 'M4 7l8-4 8 4v10l-8 4-8-4zM4 7l8 4 8-4M12 11v10',
    may: 'read',
    load: () => import('../stock/section.tsx'),
  },
  {
    id: 'products',
    drawing: 'M4 15a4 4 0 0 1 4-4h8a4 4 0 0 0 0-8M4 15a4 4 0 0 0 4 4h12M12 11v8',
    may: 'read',
    load: () => import('../products/section.tsx'),
  },
  {
    id: 'records',
    drawing: 'M6 3h9l4 4v14H6zM15 3v4h4M9 12h7M9 16h7',
    may: 'read',
    load: () => import('../records/section.tsx'),
  },
  {
    id: 'rules',
    drawing: 'M12 4v16M6 20h12M12 6H5l-2 6a3 3 0 0 0 6 0L7 6M12 6h7l2 6a3 3 0 0 1-6 0l2-6',
    may: 'read',
    load: () => import('../rules/section.tsx'),
  },
  {
    id: 'plant',
    drawing: 'M3 20V10l6 4v-4l6 4V5h6v15zM3 20h18',
    may: 'read',
    load: () => import('../plant/section.tsx'),
  },
];
