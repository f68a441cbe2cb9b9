-- Room for drums in a van, counted in what they hold; null where nobody has said, so that it is taken never to be full.
alter table van add column room_l double precision check (room_l between 1 and 20000);
