create table round (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    service_date     date    not null,
    van_id           uuid    not null references van (id),
    technician_id    uuid    references person (id),
    leaves_at        time    not null,
    -- whether the order is proven best, found by a rule of thumb, or was set by hand
    method           text    not null check (method in ('EXACT', 'INSERTION', 'BY_HAND')),
    proven_best      boolean not null,
    driving_seconds  integer not null check (driving_seconds >= 0),
    distance_m       integer not null check (distance_m >= 0),
    returns_at       time    not null,
    version          integer not null,
    unique (service_date, van_id)
);
create index round_van_id on round (van_id);
create index round_technician_id on round (technician_id);

create table round_stop (
    round            uuid    not null references round (id),
    position         integer not null,
    id               uuid    not null unique,
    site_id          uuid    not null references site (id),
    arrives_at       time    not null,
    starts_at        time    not null,
    departs_at       time    not null,
    late_minutes     integer not null check (late_minutes >= 0),
    -- leaves as quarantine, suspected or treatment: after every clean stop
    sick             boolean not null,
    planned_visits   uuid[]  not null,
    primary key (round, position)
);
create index round_stop_site_id on round_stop (site_id);
