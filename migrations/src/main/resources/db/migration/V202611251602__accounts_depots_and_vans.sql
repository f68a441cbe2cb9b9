create table depot (
    id             uuid    primary key,
    code           text    not null unique check (code <> ''),
    name           text    not null check (name <> ''),
    version        integer not null
);

create table van (
    id             uuid    primary key,
    code           text    not null unique check (code <> ''),
    name           text    not null check (name <> ''),
    depot_id       uuid    not null references depot (id),
    payload_kg     double precision not null check (payload_kg > 0 and payload_kg <= 20000),
    -- people, tools and hoses that ride along every day
    fixed_load_kg  double precision not null check (fixed_load_kg >= 0 and fixed_load_kg <= 20000),
    -- the usual size of a drum in this van, and what it weighs empty
    drum_l         double precision not null check (drum_l > 0 and drum_l <= 1000),
    drum_empty_kg  double precision not null check (drum_empty_kg >= 0 and drum_empty_kg <= 200),
    technician_id  uuid    references person (id),
    leaves_at      time    not null,
    version        integer not null
);
create index van_depot_id on van (depot_id);
create index van_technician_id on van (technician_id);
