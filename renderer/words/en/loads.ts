export const loads = {
  title: 'What the scale shows, {unit}', caution: 'Lead shot is poisonous: keep it in closed bags, wash your hands, keep it from children and food. Follow your local rules for handling and disposal. Lift heavy bags over the bench, not over your feet.',
  onScale: 'On scale', emptyTitle: 'Nothing weighed yet', empty: 'Bags of shot, batteries, steel: anything that lies still. Five or six loads that spread over the squat of a fast lap make a good curve.',
  load: 'Load', name: 'Name of the load', weighings: 'Weighings', mass: 'Mass', newName: 'New load', newMass: 'Scale shows', newHint: 'Enter adds it', needScale: 'First add a scale to the car.', putAsideShort: 'Put aside', takeBackShort: 'Take back', bag: 'Bag {count}',
  weighing: '{name}, weighing {count}', putAside: 'Put aside: {name}, weighing {count}', takeBack: 'Take back: {name}, weighing {count}', retyped: 'typed again',
  doubt: {
    disagree: 'The weighings {one} and {other} disagree by {difference}.',
    apart: '{one} stands apart from the other weighings at {other}.',
    swapped: 'With two digits swapped {one} would be {swapped}, and they would agree: was one of them typed so? Correct it, or weigh once more.',
    weighAgain: 'Weigh it once more and put aside what is wrong.',
    beyondCar: '{load} is heavier than the car at {car}. Is that right, and the unit too?',
    beyondOthers: '{load} is many times the other loads, which are about {others}. Is that right, and the unit too?',
  },
  check: 'Scale check', checkTitle: 'Check of {name}', checkHow: 'Put a mass on it that you know better than the scale does: a check weight, or counted coins of known mass. The scale’s gain is shared by every load, so it does not average out.',
  known: 'Known mass', shown: 'Scale shows', dropCheck: 'take out', gain: 'true over shown,', gainChecked: 'from the check', gainAssumed: 'assumed; no check yet',
}
