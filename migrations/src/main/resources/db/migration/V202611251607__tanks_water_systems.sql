-- The thing measured: one body of circulating water with everything it runs through.
create table water_system (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    site_id          uuid    not null references site (id),
    name             text    not null check (name <> ''),
    kind             text    not null check (kind in ('REEF', 'FISH_ONLY', 'FRESHWATER', 'PLANTED', 'COLDWATER', 'TANGANYIKA',
                                 'MALAWI', 'BRACKISH', 'HYPOSALINITY', 'LIVE_SEAFOOD', 'SUPPLY')),
    infection_class  text    not null check (infection_class in ('HEALTHY', 'NEW', 'QUARANTINE', 'SUSPECTED', 'TREATMENT')),
    -- since when the system has been in that class; a quarantine counts its days from here
    class_since      date    not null,
    -- how the net volume is known: stated by somebody, or display minus displacement plus sump
    volume_basis     text    not null check (volume_basis in ('STATED', 'CALCULATED')),
    net_volume_l     double precision not null check (net_volume_l > 0 and net_volume_l <= 10000000),
    display_volume_l double precision check (display_volume_l > 0),
    displacement_l   double precision check (displacement_l >= 0),
    sump_volume_l    double precision check (sump_volume_l >= 0),
    -- when water and first livestock went in: what is expected of a young system follows from its age
    started_on       date,
    evaporation_l_day double precision not null check (evaporation_l_day >= 0 and evaporation_l_day <= 100000),
    notes            text,
    active           boolean not null,
    version          integer not null,
    check (volume_basis = 'STATED' or display_volume_l is not null)
);
create index water_system_site_id on water_system (site_id);

create table sample_point (
    id               uuid    primary key,
    water_system     uuid    not null references water_system (id),
    position         integer not null,
    name             text    not null check (name <> ''),
    unique (water_system, name)
);

-- The range a quantity is meant to stay in; a missing limit means that side is open.
create table target (
    water_system     uuid    not null references water_system (id),
    quantity         text    not null,
    low              numeric,
    high             numeric,
    unit             text    not null,
    gravity_reference text,
    primary key (water_system, quantity),
    check (low is not null or high is not null),
    check (low <= high),
    check ((unit = 'SG') = (gravity_reference is not null))
);

create table tank (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    water_system_id  uuid    not null references water_system (id),
    name             text    not null check (name <> ''),
    -- glass or acrylic decides which blade or pad may touch it
    material         text    not null check (material in ('GLASS', 'ACRYLIC')),
    volume_l         double precision check (volume_l > 0),
    version          integer not null
);
create index tank_water_system_id on tank (water_system_id);

create table equipment (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    water_system_id  uuid    not null references water_system (id),
    kind             text    not null check (kind <> ''),
    name             text    not null check (name <> ''),
    installed_on     date,
    notes            text,
    version          integer not null
);
create index equipment_water_system_id on equipment (water_system_id);

create table livestock (
    id               uuid    primary key,
    code             text    not null unique check (code <> ''),
    water_system_id  uuid    not null references water_system (id),
    common_name      text    not null check (common_name <> ''),
    scientific_name  text,
    quantity         integer not null check (quantity >= 0 and quantity <= 1000000),
    added_on         date,
    -- animals kept to be eaten: nothing goes into this water that must not reach a plate
    will_be_eaten    boolean not null,
    version          integer not null
);
create index livestock_water_system_id on livestock (water_system_id);
