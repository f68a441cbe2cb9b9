-- A site may be entered before anybody knows where exactly it is; until then it is taken to be where the other sites of its
-- postal code or town are.
alter table site alter column latitude drop not null;
alter table site alter column longitude drop not null;
alter table site add constraint site_place_whole check ((latitude is null) = (longitude is null));
