-- From when and until when a van's crew is off in the middle of a day that is cut in two; both null for a day in one piece.
alter table van_day add column off_from time;
alter table van_day add column off_until time;
alter table van_day add constraint van_day_off_check check (
    off_from is null and off_until is null
    or off_from is not null and off_until is not null
        and starts_at < off_from and off_from < off_until and off_until < ends_at);
