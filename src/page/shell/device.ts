import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { DecimalMark } from '../figures/number.ts';
import { kept } from '../service/kept.ts';

/** What this device shows, whoever uses it; the plant's own settings are the start. */
export interface Device {
  readonly language: 'en' | 'es';
  /** 'plant': as the plant has it. */
  readonly units: 'plant' | 'lb' | 'kg';
  readonly mark: DecimalMark;
  readonly look: 'as the device' | 'light' | 'dark';
  readonly set: (change: Partial<Pick<Device, 'language' | 'units' | 'mark' | 'look'>>) => void;
}

export const DEVICE_NAME = 'device';

/** What a new device starts with: the language and the decimal mark of its browser. */
export function deviceAtFirst(): Omit<Device, 'set'> {
  const browser = navigator.language || 'en';
  const comma = new Intl.NumberFormat(browser).format(0.5).includes(',');
  return {
    language: browser.startsWith('es') ? 'es' : 'en',
    units: 'plant',
    mark: comma ? ',' : '.',
    look: 'as the device',
    ...kept<Partial<Device>>(DEVICE_NAME),
  };
}

export const DeviceContext = createContext<Device | undefined>(undefined);

export function useDevice(): Device {
  const device = useContext(DeviceContext);
  if (!device) throw new Error('useDevice is called outside the page');
  return device;
}
