ALTER TABLE `correction` ADD `old_inspected` real;--> statement-breakpoint
ALTER TABLE `correction` ADD `new_inspected` real;--> statement-breakpoint
ALTER TABLE `limits` ADD `counted_on` real;--> statement-breakpoint
UPDATE `limits` SET `counted_on` = (SELECT `counted_on` FROM `feature` WHERE `feature`.`id` = `limits`.`feature_id`);
