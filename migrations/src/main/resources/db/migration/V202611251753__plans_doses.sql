-- What a product's label and the business say about giving it. Names are compared without regard to capitals.
create table dose_rule (
    id               uuid    primary key,
    product          text    not null check (product <> ''),
    kind             text    not null check (kind in ('SUPPLEMENT', 'CONDITIONER', 'MEDICATION', 'COPPER', 'ALGICIDE', 'OTHER')),
    least_hours      integer check (least_hours between 1 and 8760),
    -- for 100 litres of net volume, in the unit beside it
    most_per_day     double precision check (most_per_day > 0),
    unit             text    not null check (unit in ('mL', 'g')),
    why              text    not null,
    person_id        uuid    references person (id),
    version          integer not null
);
create unique index dose_rule_product on dose_rule (lower(product));
create index dose_rule_person_id on dose_rule (person_id);

-- What was given of products that are guarded. The key names the line of the visit, so that a corrected entry counts once.
create table dose_given (
    key              text    primary key,
    water_system_id  uuid    not null references water_system (id),
    product          text    not null,
    amount           double precision not null check (amount > 0),
    unit             text    not null,
    given_at         timestamptz not null
);
create index dose_given_system on dose_given (water_system_id, given_at);

-- What a veterinarian ordered in writing for a system, with the days that have to pass before an animal may be eaten.
create table veterinary_order (
    id               uuid    primary key,
    water_system_id  uuid    not null references water_system (id),
    product          text    not null check (product <> ''),
    veterinarian     text    not null check (veterinarian <> ''),
    written_on       date    not null,
    valid_until      date    not null,
    waiting_days     integer not null check (waiting_days between 0 and 3650),
    person_id        uuid    references person (id),
    check (valid_until >= written_on)
);
create index veterinary_order_system on veterinary_order (water_system_id);
create index veterinary_order_person_id on veterinary_order (person_id);
