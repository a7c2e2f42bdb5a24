import { words } from '../words/words.ts';

export const SHELL = words(
  {
    sections: {
      blend: 'Blend',
      batches: 'Batches',
      stock: 'Stock',
      products: 'Products',
      records: 'Records',
      rules: 'Rules',
      plant: 'Plant',
    },
    parts: 'Parts of the page',
    toContent: 'To the content',
    lost: 'No connection to the service. What you type is kept on this device.',
    waitingToSend: (count: number) =>
      count === 1 ? '1 weighing waits to be sent' : `${count} weighings wait to be sent`,
    waitsFor: (names: string) => `sent once ${names} logs in on this device`,
    leaveOpen: 'this browser keeps nothing: do not close or reload the page',
    notBooked: (count: number) =>
      count === 1 ? '1 weighing was refused: see why' : `${count} weighings were refused: see why`,
    logOutUnsent: (count: number) =>
      `${count === 1 ? '1 weighing of yours is' : `${count} weighings of yours are`} not sent yet. They stay on this device and are sent only once you log in on it again.`,
    est: (number: string) => `Est. ${number}`,
    demo: 'Demo: nobody logs in, and only this machine can reach it',
    language: 'Español',
    languageSays: 'Cambiar a español',
    logOut: 'Log out',
    logIn: 'Log in',
    name: 'Name',
    password: 'Password',
    loginAgain: 'You have been logged out. Log in again; what you typed is still here.',
    broken: 'Something in this page failed. Nothing that was booked is lost.',
    reload: 'Load the page again',
  },
  {
    sections: {
      blend: 'Mezcla',
      batches: 'Tandas',
      stock: 'Existencias',
      products: 'Productos',
      records: 'Registros',
      rules: 'Reglas',
      plant: 'Planta',
    },
    parts: 'Partes de la página',
    toContent: 'Al contenido',
    lost: 'Sin conexión con el servicio. Lo que escribe queda guardado en este aparato.',
    waitingToSend: (count) =>
      count === 1 ? '1 pesada espera su envío' : `${count} pesadas esperan su envío`,
    waitsFor: (names) => `se envía cuando ${names} inicie sesión en este aparato`,
    leaveOpen: 'este navegador no guarda nada: no cierre ni recargue la página',
    notBooked: (count) =>
      count === 1 ? '1 pesada fue rechazada: vea por qué' : `${count} pesadas fueron rechazadas: vea por qué`,
    logOutUnsent: (count) =>
      `${count === 1 ? '1 pesada suya aún no se envía' : `${count} pesadas suyas aún no se envían`}. Se quedan en este aparato y se envían solo cuando usted inicie sesión en él otra vez.`,
    est: (number) => `Est. ${number}`,
    demo: 'Demostración: nadie inicia sesión y solo se abre en este equipo',
    language: 'English',
    languageSays: 'Change to English',
    logOut: 'Cerrar sesión',
    logIn: 'Iniciar sesión',
    name: 'Nombre',
    password: 'Contraseña',
    loginAgain: 'Su sesión se cerró. Iníciela de nuevo; lo que escribió sigue aquí.',
    broken: 'Algo falló en esta página. No se perdió nada de lo registrado.',
    reload: 'Cargar la página de nuevo',
  },
);
