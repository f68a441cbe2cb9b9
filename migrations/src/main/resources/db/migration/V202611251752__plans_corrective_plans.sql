-- How much of a quantity may change in one day. The row without a system holds for all that have none of their own.
create table safe_rate (
    id               uuid    primary key,
    water_system_id  uuid    references water_system (id),
    quantity         text    not null check (quantity in ('SALINITY', 'MAGNESIUM', 'ALKALINITY', 'CALCIUM', 'PH',
                                 'TEMPERATURE', 'NITRATE', 'PHOSPHATE')),
    -- S, dKH, mg/L, degrees Celsius or pH for a day
    raising_per_day  double precision check (raising_per_day > 0),
    lowering_per_day double precision check (lowering_per_day > 0),
    why              text    not null,
    -- who set it; nobody did where it is the one that the program came with
    person_id        uuid    references person (id),
    set_at           timestamptz,
    version          integer not null,
    unique nulls not distinct (water_system_id, quantity),
    check ((person_id is null) = (set_at is null))
);
create index safe_rate_person_id on safe_rate (person_id);

-- Common practice, no source; temperature after a fish-veterinary practice. For nitrate and phosphate none is published:
-- somebody sets one first.
insert into safe_rate (id, water_system_id, quantity, raising_per_day, lowering_per_day, why, version) values
    ('019abc00-0000-7000-8000-000000000001', null, 'SALINITY', 1.3, 1.3, '', 1),
    ('019abc00-0000-7000-8000-000000000002', null, 'MAGNESIUM', 50, 50, '', 1),
    ('019abc00-0000-7000-8000-000000000003', null, 'ALKALINITY', 0.5, 0.5, '', 1),
    ('019abc00-0000-7000-8000-000000000004', null, 'CALCIUM', 20, 20, '', 1),
    ('019abc00-0000-7000-8000-000000000005', null, 'PH', 0.2, 0.2, '', 1),
    ('019abc00-0000-7000-8000-000000000006', null, 'TEMPERATURE', 0.5, 0.5, '', 1),
    ('019abc00-0000-7000-8000-000000000007', null, 'NITRATE', null, null, '', 1),
    ('019abc00-0000-7000-8000-000000000008', null, 'PHOSPHATE', null, null, '', 1);

-- The way of one quantity of one system to its target. Values in the units of the rates.
create table corrective_plan (
    id               uuid    primary key,
    water_system_id  uuid    not null references water_system (id),
    quantity         text    not null,
    state            text    not null check (state in ('PROPOSED', 'RUNNING', 'STOPPED', 'DONE')),
    -- the reading that the steps to come were drawn from, its value and its day
    reading_id       uuid    not null references reading (id),
    first_value      double precision not null,
    from_value       double precision not null,
    read_on          date    not null,
    to_value         double precision not null,
    per_day          double precision not null check (per_day > 0),
    salt             text,
    purity           double precision check (purity > 0 and purity <= 1),
    new_water        double precision,
    temperature_c    double precision not null,
    salinity         double precision not null,
    added_per_day    double precision not null check (added_per_day >= 0),
    used_per_day     double precision not null check (used_per_day >= 0),
    carry_l          double precision not null check (carry_l >= 0),
    carry_kg         double precision not null check (carry_kg >= 0),
    -- what came of the last drawing
    reached          boolean not null,
    visits_needed    integer,
    carry_needed_l   double precision,
    carry_needed_kg  double precision,
    cautions         jsonb   not null,
    stopped_because  text,
    person_id        uuid    references person (id),
    created_at       timestamptz not null,
    version          integer not null,
    check ((state = 'STOPPED') = (stopped_because is not null))
);
create unique index corrective_plan_one_open on corrective_plan (water_system_id, quantity)
    where state in ('PROPOSED', 'RUNNING');
create index corrective_plan_reading_id on corrective_plan (reading_id);
create index corrective_plan_person_id on corrective_plan (person_id);

create table corrective_step (
    corrective_plan  uuid    not null references corrective_plan (id),
    planned_visit_id uuid    not null references planned_visit (id),
    step_on          date    not null,
    before_value     double precision not null,
    after_value      double precision not null,
    -- RATE or CARRY; null where nothing holds the step down
    held_by          text,
    product_kg       double precision not null,
    water_l          double precision not null,
    new_water        double precision,
    -- expected where the step raises pH and ammonia was measured
    ph_after         double precision,
    ammonia_after    double precision,
    primary key (corrective_plan, planned_visit_id)
);
create index corrective_step_planned_visit_id on corrective_step (planned_visit_id);
