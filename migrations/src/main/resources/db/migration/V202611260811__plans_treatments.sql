-- What is given to a system for a while, by somebody's order, and what was taken off for it.
create table treatment (
    id uuid primary key,
    water_system_id uuid not null references water_system (id),
    product text not null,
    ordered_by text not null,
    -- mg of the drug in one mL or g of the product, as its label says
    strength double precision not null check (strength > 0 and strength <= 1000000),
    unit text not null check (unit in ('mL', 'g')),
    low_mg_l double precision not null check (low_mg_l > 0),
    high_mg_l double precision not null check (high_mg_l >= low_mg_l and high_mg_l <= 10000),
    -- of copper only
    copper_form text check (copper_form in ('FREE', 'CHELATED')),
    kit_shows text check (kit_shows in ('FREE', 'TOTAL')),
    started_on date not null,
    ended_on date,
    why_ended text,
    version integer not null,
    check ((copper_form is null) = (kit_shows is null)),
    check ((ended_on is null) = (why_ended is null))
);

create index treatment_water_system_id on treatment (water_system_id);

create table treatment_thing (
    treatment_id uuid not null references treatment (id),
    thing text not null check (thing in ('CARBON', 'UV', 'OZONE', 'SKIMMER')),
    state text not null check (state in ('ON', 'OFF', 'BACK')),
    primary key (treatment_id, thing)
);
