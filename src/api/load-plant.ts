import { houseRuleProblems } from '../rules/house-rules.ts';
import type { RuleSet } from '../rules/standard.ts';
import { TableError } from '../tables/csv.ts';
import { HOUSE_RULES_FILE } from '../tables/house-rules.ts';
import { loadPlantFolder, type PlantData } from '../tables/plant-folder.ts';

/**
 * Reads a plant's folder and holds its own rules against the law as it is known here.
 * @throws TableError naming the file and place of what is wrong.
 */
export function loadPlant(folder: string, tablesFolder: string, ruleSets: readonly RuleSet[]): PlantData {
  const data = loadPlantFolder(folder, tablesFolder);
  const problems = houseRuleProblems(data.houseRules, ruleSets);
  if (problems.length === 0) return data;
  throw new TableError(
    problems.map(({ path, message }) => ({ file: HOUSE_RULES_FILE, column: path.join('.'), message })),
  );
}
