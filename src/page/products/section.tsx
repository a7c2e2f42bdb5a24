import './products.css';
import { Tabs } from '../parts/tabs.tsx';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import { Editor } from './editor.tsx';
import { House } from './house.tsx';
import { ProductList } from './list.tsx';
import { PRODUCTS } from './words.ts';

/** What the plant makes, and what it asks of itself beyond the law. */
export default function Section({ place }: SectionProps) {
  const t = useWords(PRODUCTS);
  const [id] = place.parts;
  const from = place.query.get('from') ?? undefined;
  return (
    <div class="products stack">
      <Tabs
        label={t.title}
        tabs={[
          { address: '#/products', says: t.own, isHere: id !== 'house' },
          { address: '#/products/house', says: t.house, isHere: id === 'house' },
        ]}
      />
      {id === undefined && <ProductList />}
      {id === 'house' && <House />}
      {id === 'new' && <Editor key={`new ${from}`} {...(from !== undefined && { from })} />}
      {id !== undefined && id !== 'house' && id !== 'new' && <Editor key={id} id={id} />}
    </div>
  );
}
