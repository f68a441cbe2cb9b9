-- What was agreed for one water system: how often, what is done, how long it takes and what a visit costs.
create table agreement (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    water_system_id  uuid    not null references water_system (id),
    every_weeks      integer not null check (every_weeks between 1 and 52),
    -- 1 is Monday, 7 is Sunday
    weekdays         integer[] not null check (cardinality(weekdays) between 1 and 7),
    -- a day of the first week; the rhythm of weeks counts from it
    valid_from       date    not null,
    valid_until      date,
    minutes          integer not null check (minutes between 1 and 1440),
    price            numeric not null check (price >= 0),
    version          integer not null,
    check (valid_until > valid_from)
);
create index agreement_water_system_id on agreement (water_system_id);

create table agreement_task (
    agreement        uuid    not null references agreement (id),
    position         integer not null,
    kind             text    not null check (kind in ('WATER_CHANGE', 'TOP_UP', 'SOCK_SWAP', 'TEST', 'DOSE', 'MEDIA', 'WORK')),
    -- how much, in the unit beside it: %, L, mL, g, count
    amount           numeric check (amount > 0),
    unit             text,
    -- what: a quantity to test, a product to dose, a medium, a piece of work
    item             text,
    size_mm          integer check (size_mm between 10 and 1000),
    interval_days    integer check (interval_days between 1 and 3660),
    primary key (agreement, position)
);

-- A due visit. It is made once for an agreement and day, however often due visits are asked for.
create table planned_visit (
    id               uuid    primary key,
    agreement_id     uuid    not null references agreement (id),
    water_system_id  uuid    not null references water_system (id),
    site_id          uuid    not null references site (id),
    due_on           date    not null,
    state            text    not null check (state in ('DUE', 'DONE', 'DROPPED')),
    minutes          integer not null check (minutes between 1 and 1440),
    price            numeric not null check (price >= 0),
    done_on          date,
    version          integer not null,
    unique (agreement_id, due_on)
);
create index planned_visit_due_on on planned_visit (due_on);
create index planned_visit_water_system_id on planned_visit (water_system_id);
create index planned_visit_site_id on planned_visit (site_id);
