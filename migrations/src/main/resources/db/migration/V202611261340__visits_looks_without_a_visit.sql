-- What was seen and offered where no visit goes, such as at the depot's own quarantine; only added to.
create table animal_look (
    id               uuid         primary key,
    water_system_id  uuid         not null references water_system (id),
    eating           text         not null check (eating in ('ALL', 'SOME', 'NONE')),
    breathing        text         not null check (breathing in ('CALM', 'FAST')),
    signs            text         check (signs <> ''),
    seen_at          timestamptz  not null,
    person_id        uuid         not null references person (id)
);
create index animal_look_water_system_id on animal_look (water_system_id, seen_at);
create index animal_look_person_id on animal_look (person_id);

create table animal_offer (
    id               uuid         primary key,
    water_system_id  uuid         not null references water_system (id),
    livestock_id     uuid         not null references livestock (id),
    offer            text         not null check (offer <> ''),
    outcome          text         not null check (outcome in ('EATEN', 'TASTED', 'REFUSED')),
    offered_at       timestamptz  not null,
    person_id        uuid         not null references person (id)
);
create index animal_offer_water_system_id on animal_offer (water_system_id, offered_at);
create index animal_offer_livestock_id on animal_offer (livestock_id);
create index animal_offer_person_id on animal_offer (person_id);
