-- For how many tests a kit is enough, as its package says.
alter table stock_item add column tests_per_kit integer check (tests_per_kit between 1 and 1000);
alter table stock_item add constraint stock_item_kit_check check (kind = 'TEST_KIT' or tests_per_kit is null);
