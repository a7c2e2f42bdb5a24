/** The import checker, whose parser is told here that a .tsx file holds elements; by itself it reads none. */
import swc from '@swc/core';

const { parseFileSync } = swc;
swc.parseFileSync = (file, options) => parseFileSync(file, { ...options, tsx: file.endsWith('.tsx') });

await import('../../node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
