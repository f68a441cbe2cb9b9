-- What supply systems are to the water plan: tanks for purified water and vats in which salt water is mixed.
create table water_vat (
    water_system_id  uuid        primary key references water_system (id),
    role             text        not null check (role in ('PURIFIED', 'MIXING')),
    version          integer     not null
);

-- How much was in one when somebody looked, and which batch that was.
create table water_vat_level (
    id               uuid        primary key,
    water_system_id  uuid        not null references water_system (id),
    litres           double precision not null check (litres >= 0 and litres <= 1000000),
    batch_id         uuid        references water_batch (id),
    read_at          timestamptz not null,
    person_id        uuid        references person (id)
);
create index water_vat_level_water_system_id on water_vat_level (water_system_id, read_at);
create index water_vat_level_batch_id on water_vat_level (batch_id);
create index water_vat_level_person_id on water_vat_level (person_id);

-- Water that was moved: from the plant where it comes from nowhere, into drums or down the drain where it goes nowhere.
create table water_movement (
    id               uuid        primary key,
    from_system_id   uuid        references water_system (id),
    to_system_id     uuid        references water_system (id),
    litres           double precision not null check (litres > 0 and litres <= 100000),
    moved_at         timestamptz not null,
    person_id        uuid        references person (id),
    check (from_system_id is not null or to_system_id is not null),
    check (from_system_id is distinct from to_system_id)
);
create index water_movement_from_system_id on water_movement (from_system_id, moved_at);
create index water_movement_to_system_id on water_movement (to_system_id, moved_at);
create index water_movement_person_id on water_movement (person_id);
