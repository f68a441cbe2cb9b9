-- How high the floor of the load space is above the ground; absent where nobody has said, and then a usual one is reckoned with.
alter table van add column floor_cm double precision check (floor_cm >= 20 and floor_cm <= 120);
