import type { CallHandler } from '../desk.ts';

export const dogSave: CallHandler<'dog.save'> = (desk, { dog, basedOn }) => {
  const saved = desk.library.dogs.save(dog, basedOn);
  if (saved.act !== null) desk.hub.dogsChanged();
  return saved;
};

export const dogRemove: CallHandler<'dog.remove'> = (desk, { id }) => {
  const act = desk.library.dogs.remove(id);
  desk.hub.dogsChanged();
  return { act };
};

export const dogTakeBack: CallHandler<'dog.takeBack'> = (desk, { act }) => {
  desk.library.dogs.takeBack(act);
  desk.hub.dogsChanged();
  return {};
};
