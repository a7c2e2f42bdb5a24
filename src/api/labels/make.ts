import { packLabelPdf } from '../../documents/pdf/label/label.ts';
import { LABEL_STOCKS, labelStock } from '../../documents/pdf/label/label-stock.ts';
import { declare } from '../../labels/declaration.ts';
import { LabelRefused } from '../../labels/packs/label-refused.ts';
import { type PackLabel, packLabel } from '../../labels/packs/pack-label.ts';
import { type Desk, settledBlend } from '../blending.ts';
import { parseOrProblem } from '../parse.ts';
import { Problem } from '../problem.ts';
import { type PrintQuery, packLabelRequestSchema } from './contract.ts';
import { formatOf } from './format.ts';

/** The stock where nobody says which: the common one on which a label with everything fits. */
const USUAL_STOCK = 'roll-102x152';

/** A label without a batch in the books: of a blend that is worked out. @throws Problem */
export async function labelOfBlend(desk: Desk, body: unknown): Promise<PackLabel> {
  const request = parseOrProblem(packLabelRequestSchema, body);
  const { task, blend } = await settledBlend(desk, (body as { blend: unknown }).blend).catch(inBlend);
  const { product, standard, plant, casing } = task;
  const [usual] = product.label.packs ?? [];
  const format = request.format === undefined ? usual : formatOf(product, request.format, ['format']);
  const { lotId, packedDate = desk.today(), useByDate, bestBeforeDate, net } = request;
  return refusable(() =>
    packLabel({
      declaration: declare(product, standard, blend, plant, casing),
      product,
      standard,
      plant,
      ...(format && { format }),
      ...(net && { net }),
      lotId,
      packedDate,
      ...(useByDate !== undefined && { useByDate }),
      ...(bestBeforeDate !== undefined && { bestBeforeDate }),
    }),
  );
}

/** The fault is named where it stands in this request. */
function inBlend(error: unknown): never {
  if (!(error instanceof Problem)) throw error;
  const errors = error.errors.map(({ pointer, message }) => ({ pointer: `/blend${pointer}`, message }));
  throw new Problem(error.kind, error.message, { errors, headers: error.headers });
}

/** What the words of a label refuse, as a problem. */
export function refusable<Made>(make: () => Made): Made {
  try {
    return make();
  } catch (error) {
    throw asProblem(error);
  }
}

function asProblem(error: unknown): unknown {
  return error instanceof LabelRefused ? new Problem('cannot-be-used', error.message) : error;
}

/** How a label is wanted on paper; the stock by its id. */
type LabelPrinting = Omit<PrintQuery, 'stock'> & { readonly stock?: string | undefined };

/**
 * A label on paper.
 * @throws Problem 'cannot-be-used' when it does not fit, with the stocks on which it would.
 */
export async function printedLabel(
  label: PackLabel,
  { stock: wanted, part, copies, start, guides }: LabelPrinting,
): Promise<Uint8Array> {
  const id = wanted ?? label.labelStock ?? USUAL_STOCK;
  const stock = labelStock(id);
  if (!stock) {
    const known = LABEL_STOCKS.map((one) => one.id).join(', ');
    throw new Problem('cannot-be-used', `There is no label stock "${id}". The stocks are ${known}.`);
  }
  const cells = stock.sheet ? stock.sheet.columns * stock.sheet.rows : 1;
  if (start > cells) {
    const message = `${start}: ${stock.id} has ${cells === 1 ? 'one label' : `${cells} labels`} to a page; start at one of them`;
    throw new Problem('cannot-be-used', message, { errors: [{ pointer: '/start', message }] });
  }
  return packLabelPdf(label, { stock, part, copies, start, cutGuides: guides === 'true' }).catch((error) => {
    throw asProblem(error);
  });
}
