-- Water that is not changed at one visit but at the next, such as where a van could not carry it all. What the one has less
-- the other has more.
create table moved_change (
    from_visit_id  uuid         primary key references planned_visit (id),
    to_visit_id    uuid         not null references planned_visit (id),
    litres         numeric      not null check (litres > 0),
    person_id      uuid         not null references person (id),
    moved_at       timestamptz  not null,
    check (from_visit_id <> to_visit_id)
);
create index moved_change_to_visit_id on moved_change (to_visit_id);
create index moved_change_person_id on moved_change (person_id);
