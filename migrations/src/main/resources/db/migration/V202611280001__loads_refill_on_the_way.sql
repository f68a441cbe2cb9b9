-- RO/DI water that the van takes at a visit for its later stops, so that their containers leave the depot empty.
create table refill_on_the_way (
    planned_visit_id  uuid         primary key references planned_visit (id),
    litres            numeric      not null check (litres > 0 and litres <= 1000),
    person_id         uuid         not null references person (id),
    decided_at        timestamptz  not null
);
create index refill_on_the_way_person_id on refill_on_the_way (person_id);
