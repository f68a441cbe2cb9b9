-- What a plant for purified water consists of. A stage that was replaced stays, with the day on which it went.
create table purification_stage (
    id               uuid    primary key,
    water_system_id  uuid    not null references water_system (id),
    kind             text    not null check (kind in ('PREFILTER', 'CARBON', 'MEMBRANE', 'RESIN')),
    name             text    not null check (name <> ''),
    installed_on     date    not null,
    removed_on       date    check (removed_on >= installed_on),
    -- what the water meter showed when it went in; without it, the first reading from that day on counts
    meter_l          double precision check (meter_l >= 0),
    months_allowed   integer check (months_allowed between 1 and 120),
    drop_allowed_kpa double precision check (drop_allowed_kpa > 0),
    litres_between_tests double precision check (litres_between_tests > 0),
    lowest_rejection double precision check (lowest_rejection between 0 and 1),
    capacity_eq      double precision check (capacity_eq > 0),
    carbon_dioxide_mg_l double precision check (carbon_dioxide_mg_l >= 0),
    version          integer not null
);
create index purification_stage_water_system_id on purification_stage (water_system_id);

-- Where in the plant a sample point is.
create table purification_point (
    sample_point_id  uuid    primary key references sample_point (id) on delete cascade,
    place            text    not null check (place in ('FEED', 'AFTER_CARBON', 'AFTER_MEMBRANE', 'AFTER_RESIN', 'CONTAINER'))
);

-- Supply systems that are filled from a plant.
create table purification_container (
    water_system_id  uuid    primary key references water_system (id),
    plant_id         uuid    not null references water_system (id),
    check (water_system_id <> plant_id)
);
create index purification_container_plant_id on purification_container (plant_id);

-- From a wash on, a container's dissolved solids are counted anew.
create table purification_wash (
    water_system_id  uuid    not null references water_system (id),
    sample_point_id  uuid    references sample_point (id) on delete cascade,
    washed_on        date    not null,
    person_id        uuid    not null references person (id),
    unique nulls not distinct (water_system_id, sample_point_id, washed_on)
);
create index purification_wash_sample_point_id on purification_wash (sample_point_id);
create index purification_wash_person_id on purification_wash (person_id);
