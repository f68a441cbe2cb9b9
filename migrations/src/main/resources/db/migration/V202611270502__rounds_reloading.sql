-- Whether planning lets a van come back to its depot, load and leave again, what that costs beside the road, and how long it
-- takes there. Terms that somebody has set stay as they were: no van did.
alter table planning_terms add column reload numeric(12, 2) not null default 5.00 check (reload between 0 and 100000);
alter table planning_terms add column reloads boolean not null default false;
alter table planning_terms add column reload_minutes integer not null default 20 check (reload_minutes between 0 and 240);
alter table planning_terms alter column reload drop default;
alter table planning_terms alter column reloads drop default;
alter table planning_terms alter column reload_minutes drop default;
