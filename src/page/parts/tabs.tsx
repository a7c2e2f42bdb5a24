export interface Tab {
  readonly address: string;
  readonly says: string;
  readonly isHere: boolean;
}

/** The places within one section, as links: each has its address. */
export function Tabs({ label, tabs }: { readonly label: string; readonly tabs: readonly Tab[] }) {
  return (
    <nav class="tabs" aria-label={label}>
      {tabs.map(({ address, says, isHere }) => (
        <a key={address} href={address} aria-current={isHere ? 'page' : undefined}>
          {says}
        </a>
      ))}
    </nav>
  );
}
