-- Which of its van's rounds of that day a round is, the first being 1: a van may come back to the depot, load and leave again.
alter table round add column trip integer not null default 1 check (trip between 1 and 9);
alter table round alter column trip drop default;
alter table round drop constraint round_service_date_van_id_key;
alter table round add constraint round_service_date_van_id_trip_key unique (service_date, van_id, trip);

-- Before which a further round does not leave, though the one before it is back; null where it leaves as soon as it can.
alter table round add column not_before time;

alter table week_plan_stop add column trip integer not null default 1 check (trip between 1 and 9);
alter table week_plan_stop alter column trip drop default;
