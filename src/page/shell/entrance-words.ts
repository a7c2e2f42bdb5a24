import { words } from '../words/words.ts';

export const ENTRANCE = words(
  {
    forgotten:
      'Forgotten the password? An admin gives you a new one under Plant, People; or, at the machine of the service: npm run meatblock -- reset-password NAME',
    setUp: 'The first admin',
    setUpSays:
      'Nobody has an account in this plant yet. Whoever started the service makes the first one, and then adds the others.',
    code: 'Set-up code',
    codeSays: 'It stands in the terminal in which the service was started, and is good for 30 minutes.',
    yourName: 'Your name',
    passwordSays: 'At least 10 characters. A few words of your own are easy to keep in mind.',
    makeAdmin: 'Make the account and log in',
    show: 'Show what I type',
  },
  {
    forgotten:
      '¿Olvidó la contraseña? Un administrador le da una nueva en Planta, Personas; o, en el equipo del servicio: npm run meatblock -- reset-password NOMBRE',
    setUp: 'El primer administrador',
    setUpSays:
      'Nadie tiene cuenta en esta planta todavía. Quien inició el servicio crea la primera y luego agrega a los demás.',
    code: 'Código de instalación',
    codeSays: 'Está en la terminal en la que se inició el servicio y vale 30 minutos.',
    yourName: 'Su nombre',
    passwordSays: 'Al menos 10 caracteres. Unas cuantas palabras propias se recuerdan fácilmente.',
    makeAdmin: 'Crear la cuenta e iniciar sesión',
    show: 'Mostrar lo que escribo',
  },
);
