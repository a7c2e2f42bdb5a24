import { words } from '../words/words.ts';

export const START = words(
  {
    title: 'Welcome to meatblock',
    says: 'It decides what goes into each batch of ground meat and sausage: the least-cost blend of what you have on hand that keeps every limit of the law and your own.',
    try: 'Try the demo plant',
    trySays:
      'A made-up plant with lots, prices and eight products. You see your first blend at once; nothing you do there matters.',
    own: 'Set up my plant',
    ownSays:
      'Five short steps: plant, scales, people, products, first lots. About five minutes. It ends with your first blend.',
    goOn: 'Go on with setting up',
    goOnSays: 'You have begun; what you typed is still here.',
    later: 'You can do this later too: under Plant.',
    steps: { plant: 'Plant', scales: 'Scales', people: 'People', with: 'Begin with', lots: 'First lots' },
    step: (number: number, name: string) => `Step ${number} of 5: ${name}`,
    progress: 'Steps',
    next: 'Next',
    back: 'Back',
    passwordGone: 'Type the password once more: it is kept nowhere until the plant is begun.',
    plant: {
      title: 'Your plant',
      says: 'What stands on sheets and labels. Everything here can be changed later.',
    },
    scales: {
      title: 'How you weigh',
      says: 'Every weight on a sheet is one that a scale of yours can show.',
      usual:
        'These are usual scales, common practice and no more than a start: put in what stands on the plates of yours.',
      names: { floor: 'Floor scale', bench: 'Bench scale', gram: 'Gram scale' },
      again: 'The usual scales again',
    },
    people: {
      title: 'Who you are',
      says: 'You become the first admin: from then on everyone logs in, and you add the others under Plant, People.',
      there: (name: string) => `You are logged in as ${name}. Others are added under Plant, People.`,
      name: 'Your name',
      needed: 'Write your name and a password.',
    },
    with: {
      title: 'What to begin with',
      empty: 'Empty: my own lots',
      emptySays:
        'The demo lots are put away. Recipes below stay as a start, with the prices of their seasonings.',
      all: 'With everything of the demo, to play',
      allSays: (day: string) =>
        `Its lots, prices and products stay, and the day stands still at ${day}. Good to learn on; real work belongs into an empty plant.`,
      products: 'Recipes to begin with',
      productsSay: 'They are our own and meant to be changed. Take none to write yours from nothing.',
      standard: (name: string) => `${name}: standard`,
      asWritten: 'As written, United States',
      otherMarket:
        'These recipes are written for United States standards. Choose for each what it is called in your market, or leave it and change the product later.',
      prices:
        'Prices of seasonings and casings are figures of the demonstration: put in your own under Stock. Cure and what else is kept in lots is received there before a first batch of it.',
      begin: 'Begin my plant',
      begun: 'Your plant is begun.',
    },
    lots: {
      title: 'Your first lots of trim',
      says: 'Two are enough for a first blend: a fat one and a lean one. Dates, boxes and suppliers come under Stock.',
      lot: (number: number) => `Lot ${number}`,
      material: 'Material',
      lean: 'Lean, if tested',
      mass: 'Weight',
      price: 'Price',
      more: 'One more lot',
      received: (id: string) => `Received as lot ${id}`,
      done: 'Receive and go to the first blend',
      skip: 'Later, without lots',
      none: 'Write at least one weight and its price, or go on without lots.',
    },
    only: 'Only an admin sets up the plant.',
    late: 'Work is booked already',
    lateSays:
      'Nothing in the books is ever lost, so a plant is begun anew only while they are empty. Stop the service and start it on a store of its own; then open this page again:',
    command: 'Command',
    toBlend: 'To the blend',
  },
  {
    title: 'Bienvenido a meatblock',
    says: 'Decide qué entra en cada tanda de carne molida y embutido: la mezcla de menor costo de lo que usted tiene, que cumple todos los límites de la ley y los suyos.',
    try: 'Probar la planta de demostración',
    trySays:
      'Una planta inventada con lotes, precios y ocho productos. Ve su primera mezcla en seguida; nada de lo que haga ahí tiene consecuencias.',
    own: 'Configurar mi planta',
    ownSays:
      'Cinco pasos cortos: planta, básculas, personas, productos, primeros lotes. Unos cinco minutos. Termina con su primera mezcla.',
    goOn: 'Seguir con la configuración',
    goOnSays: 'Usted ya empezó; lo que escribió sigue aquí.',
    later: 'También puede hacerlo después: en Planta.',
    steps: {
      plant: 'Planta',
      scales: 'Básculas',
      people: 'Personas',
      with: 'Empezar con',
      lots: 'Primeros lotes',
    },
    step: (number, name) => `Paso ${number} de 5: ${name}`,
    progress: 'Pasos',
    next: 'Siguiente',
    back: 'Atrás',
    passwordGone: 'Escriba la contraseña otra vez: no se guarda en ningún lugar hasta que la planta empieza.',
    plant: {
      title: 'Su planta',
      says: 'Lo que va en hojas y etiquetas. Todo esto se puede cambiar después.',
    },
    scales: {
      title: 'Cómo pesa',
      says: 'Cada peso de una hoja es uno que una báscula suya puede mostrar.',
      usual:
        'Estas son básculas usuales, práctica común y solo un comienzo: ponga lo que dice la placa de las suyas.',
      names: { floor: 'Báscula de piso', bench: 'Báscula de mesa', gram: 'Báscula de gramos' },
      again: 'Las básculas usuales de nuevo',
    },
    people: {
      title: 'Quién es usted',
      says: 'Usted será el primer administrador: desde entonces todos inician sesión, y usted agrega a los demás en Planta, Personas.',
      there: (name) => `Ha iniciado sesión como ${name}. Los demás se agregan en Planta, Personas.`,
      name: 'Su nombre',
      needed: 'Escriba su nombre y una contraseña.',
    },
    with: {
      title: 'Con qué empezar',
      empty: 'Vacía: mis propios lotes',
      emptySays:
        'Los lotes de la demostración se apartan. Las recetas de abajo quedan como comienzo, con los precios de sus condimentos.',
      all: 'Con todo lo de la demostración, para jugar',
      allSays: (day) =>
        `Sus lotes, precios y productos quedan, y el día está detenido en ${day}. Sirve para aprender; el trabajo real va en una planta vacía.`,
      products: 'Recetas para empezar',
      productsSay:
        'Son nuestras y están para cambiarlas. No tome ninguna si quiere escribir las suyas desde cero.',
      standard: (name) => `${name}: norma`,
      asWritten: 'Como está escrita, Estados Unidos',
      otherMarket:
        'Estas recetas están escritas para normas de Estados Unidos. Elija para cada una cómo se llama en su mercado, o déjela y cambie el producto después.',
      prices:
        'Los precios de condimentos y tripas son cifras de la demostración: ponga los suyos en Existencias. La sal de cura y lo demás que se lleva por lotes se recibe ahí antes de la primera tanda.',
      begin: 'Empezar mi planta',
      begun: 'Su planta ha empezado.',
    },
    lots: {
      title: 'Sus primeros lotes de recortes',
      says: 'Dos bastan para una primera mezcla: uno graso y uno magro. Fechas, cajas y proveedores vienen en Existencias.',
      lot: (number) => `Lote ${number}`,
      material: 'Material',
      lean: 'Magro, si se analizó',
      mass: 'Peso',
      price: 'Precio',
      more: 'Un lote más',
      received: (id) => `Recibido como lote ${id}`,
      done: 'Recibir e ir a la primera mezcla',
      skip: 'Después, sin lotes',
      none: 'Escriba al menos un peso y su precio, o siga sin lotes.',
    },
    only: 'Solo un administrador configura la planta.',
    late: 'Ya hay trabajo registrado',
    lateSays:
      'Nada de los libros se pierde nunca; por eso una planta empieza de nuevo solo mientras están vacíos. Detenga el servicio e inícielo con un almacén propio; luego abra esta página de nuevo:',
    command: 'Comando',
    toBlend: 'A la mezcla',
  },
);
