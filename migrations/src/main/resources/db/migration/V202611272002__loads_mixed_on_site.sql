-- Salt water for a visit that is mixed at the site, in empty drums that go along, because the van could not carry it mixed.
create table mixed_on_site (
    planned_visit_id  uuid         primary key references planned_visit (id),
    person_id         uuid         not null references person (id),
    decided_at        timestamptz  not null
);
create index mixed_on_site_person_id on mixed_on_site (person_id);
