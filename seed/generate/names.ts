import type { Random } from './random.ts'

const families = `
Abara Abrego Adeyinka Afolayan Amponsah Aldersey Ambrey Arrieta Ashgrove Baranowski Barrientos Barrowby Begaye Bellerive
Bertolini Bhattarai Birchall Bramhill Brindlow Bustamante Cabañas Calderbank Carrasco Castagnoli Chanthavong
Charbonneau Chaudhari Chetwood Chikwanda Clevering Corbridge Cressfield Czarnecki D'Orsogna Dahlberg Dallimore
Demirci Denholt Desrosiers Dhillon Dlamini Dobrovolny Dunleavy Dunmarrow Eastlow Edgeley El-Amin Elmsworth Engström
Escalante Fa'alogo Fairbourne Farahani Farthing Figueiredo Fioravanti Fukumoto Galarza Garroway Gatesby Gauthereau
Goldring Gonçalves Greystock Grzybowski Gunawardena Haddad Halvorsen Harrowgate Hartlow Haverill Hoang Hollins
Holmqvist Horvat Ibáñez Inglewood Jessop Jørgensen Kahananui Kamara Kawahara Kealoha Kellaway Khoury
Kilbride Kingsmere Kiprono Kjeldsen Kowalczyk Křížek Kulkarni L'Heureux Lachapelle Lambourne Larkham Leadbetter Leota
Lindlow Lindqvist Lizárraga Lockyer Ma'afu MacAlister Magalhães Maldonado Mansour Marchbanks Marchenko Marchetti
McCorquodale McIlvain Merriden Millbrook Mizrahi Montoya Mukherji Mutasa Mwangi Nakagawa Ndiaye Netherby Nguyen
Nkemelu Norcliffe Nwosu Nygård Núñez O'Hanrahan O'Rafferty O'Shaughnessy Oakhanger Obiora Ogunbanjo Okazaki Olivares
Orchard Østergaard Overbury Oyelaran Pendrell Peñalver Phommasane Pinchbeck Quarrington Quaye Quintrell Quiroga
Quiñones Rahmani Ravensby Redfern Rowntree Saadeh Saetang Sallow Sandhu Sedgeworth Sequeira Sesay Shaheen Shelbrooke
Siriwardena Sokolova Søndergaard Stanbury Stanić Tadesse Takeuchi Tattersall Tejada Tembo Thackwell Thapa Thibodeaux
Tillbrook Tkachenko Tollefsen Tran Tsosie Tu'ipulotu Uhlmann Underhill Urrutia Vandermeer Vang Vasconcelos Venning
Villaseñor Wainscott Westerham Whitehorse Whitlock Windebank Wiśniewski Wraxall Xiong Yamasaki Yarrow Yazzie
Yelverton Yildirim Yoon Zamarripa Zelenka Zepeda Zhao Zimmerle
Castellane-Ruiz Lindgren-Vale Ng-Barlow Osei-Thornton Park-Hollis Ruiz-Delacroix Stone-Abara
`

const given = `
Aaliyah Abigail Ada Adaeze Adrian Agnes Ahmed Aiko Alana Alejandra Alistair Amara Amina Anders André Anneliese Anselm
Anthony Anya Arjun Astrid Audrey Beatriz Benedict Bianca Bram Brendan Bridget Caleb Camila Carmen Cecilia Chidi
Clarence Clement Corinne Cormac Cyrus Dalia Damian Daniela Darius Delphine Desmond Dilip Dmitri Dominic Dorothea
Edith Eduardo Efua Eleanor Elias Eloise Emeka Emil Enrique Esperanza Esther Ezra Farah Fatima Felicity Fergus
Fernando Fiona Florian Gabriela Gareth Genevieve Gideon Giulia Gloria Graciela Gregor Hadiza Hamish Hana Harriet
Hassan Hector Heidi Henrik Hiroshi Hollis Ibrahim Ignacio Imani Imogen Ines Ingrid Isadora Isaiah Ivo Jamila Jasper
Javier Jelena Jerome Joaquín Joanna Jonas Josephine Joyce Judith Julius Kaito Kamal Karina Kavita Keola Kofi
Kwame Lachlan Latisha Laurence Leilani Leopold Lidia Linnea Lorenzo Lucía Ludovic Mabel Magnus Malika Marcus Margit
Marisol Mateo Matilda Maurice Mei-Ling Melchior Mercedes Mihai Milena Miriam Monique Nadia Naomi Nathaniel
Nerys Nikhil Noor Octavia Oksana Olivia Omar Oren Oskar Padma Paloma Patience Percival Petra Philippa Pilar Priya
Quentin Rafael Ramona Ravi Rebecca Reuben Rhiannon Rohan Rosalind Rufus Ruth Salma Samira Santiago Seamus Sergei
Shanelle Silvia Simone Sione Solomon Sunita Sven Tabitha Tamara Tariq Terrence Thandiwe Thérèse Tobias Tomasz Tyrone
Ulrich Ursula Valentina Vanessa Vikram Vivian Wendell Wilfred Winifred Xavier Ximena Yasmin Yusuf Zacharias Zoë
ليلى سامر مريم נועה
`

const list = (text: string): readonly string[] => text.trim().split(/\s+/)

/** Family names of the demo unit: common stock from many languages, put together by chance, none meaning a person. */
export const familyNames = list(families)
/** Given names of the demo unit, a few of them in a script that runs from right to left. */
export const givenNames = list(given)

/** Deals a list out in random order, shuffled anew when it is used up, so that no name comes much oftener than another. */
function dealer(random: Random, names: readonly string[]): () => string {
  let deck: string[] = []
  return () => {
    if (deck.length === 0) deck = random.shuffle(names)
    return deck.pop() as string
  }
}

/**
 * A source of invented names; no two people of one source bear the same given and family name.
 * Throws a RangeError when every pair has been given out.
 */
export function createNames(random: Random): () => { familyName: string; givenName: string } {
  const nextFamily = dealer(random, familyNames)
  const nextGiven = dealer(random, givenNames)
  const taken = new Set<string>()
  return () => {
    if (taken.size === familyNames.length * givenNames.length) throw new RangeError('Every name has been given out.')
    const familyName = nextFamily()
    let givenName = nextGiven()
    while (taken.has(`${givenName} ${familyName}`)) givenName = nextGiven()
    taken.add(`${givenName} ${familyName}`)
    return { familyName, givenName }
  }
}
