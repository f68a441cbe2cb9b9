-- Live animals that go along to a due visit. They keep in their bags for so many hours from packing on.
create table animal_delivery (
    id                   uuid         primary key,
    planned_visit_id     uuid         not null references planned_visit (id),
    what                 text         not null check (what <> ''),
    packed_at            timestamptz  not null,
    bag_minutes          integer      not null check (bag_minutes between 30 and 4320),
    -- from opening the box until they are in the water
    acclimation_minutes  integer      not null check (acclimation_minutes between 0 and 480)
);
create index animal_delivery_planned_visit_id on animal_delivery (planned_visit_id);
