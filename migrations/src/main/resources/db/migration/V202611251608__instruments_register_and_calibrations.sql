create table instrument (
    id                  uuid    primary key,
    code                text    not null unique check (code <> ''),
    name                text    not null check (name <> ''),
    kind                text    not null check (kind in ('REFRACTOMETER', 'HYDROMETER', 'SWING_ARM', 'CONDUCTIVITY_METER', 'TDS_PEN',
                                    'PH_METER', 'THERMOMETER', 'OXYGEN_PROBE', 'TEST_KIT', 'PHOTOMETER')),
    quantity            text    not null,
    -- the scale it is read on: SG with its reference, S, mS/cm, mg/L ...
    unit                text    not null,
    gravity_reference   text,
    -- whether a refractometer's scale was drawn for seawater or for sodium chloride brine
    graduation          text    check (graduation in ('SEAWATER', 'NACL')),
    resolution          numeric not null check (resolution > 0),
    -- the largest error found at a check with which it still counts as good, on its own scale
    permitted_error     numeric not null check (permitted_error > 0),
    check_interval_days integer not null check (check_interval_days between 1 and 3660),
    lot                 text,
    expires_on          date,
    purchased_on        date,
    retired_on          date,
    holder_id           uuid    references person (id),
    version             integer not null,
    check ((unit = 'SG') = (gravity_reference is not null))
);
create index instrument_holder_id on instrument (holder_id);

create table standard (
    id                  uuid    primary key,
    code                text    not null unique check (code <> ''),
    name                text    not null check (name <> ''),
    quantity            text    not null,
    -- salinity standards are kept as practical salinity, zero standards as 0
    value               numeric not null check (value >= 0),
    unit                text    not null,
    -- expanded uncertainty (k = 2) of the value, in the same unit
    uncertainty         numeric not null check (uncertainty >= 0),
    value_temperature_c numeric check (value_temperature_c between -5 and 60),
    lot                 text,
    opened_on           date,
    expires_on          date,
    version             integer not null
);

-- One row for each standard held against an instrument; rows of one instant form one check. Never changed, only added.
create table calibration (
    id                  uuid        primary key,
    code                text        not null unique check (code <> ''),
    instrument_id       uuid        not null references instrument (id),
    standard_id         uuid        not null references standard (id),
    performed_at        timestamptz not null,
    person_id           uuid        references person (id),
    as_found            numeric     not null,
    as_left             numeric     not null,
    -- the standard's value as it was then, so that a later edit of the standard changes no history
    standard_value      numeric     not null,
    standard_unit       text        not null,
    standard_uncertainty numeric    not null check (standard_uncertainty >= 0),
    standard_lot        text,
    temperature_c       numeric     check (temperature_c between -5 and 60),
    note                text,
    recorded_at         timestamptz not null,
    unique (instrument_id, standard_id, performed_at)
);
create index calibration_standard_id on calibration (standard_id);
create index calibration_person_id on calibration (person_id);
