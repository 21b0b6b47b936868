CREATE TABLE `capability_statement` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`part_id` integer NOT NULL,
	`title` text NOT NULL,
	`frozen_at` integer NOT NULL,
	`account_id` integer,
	`features` integer NOT NULL,
	`supersedes` integer,
	`content` blob NOT NULL,
	`readings` blob NOT NULL,
	`content_digest` text NOT NULL,
	`readings_digest` text NOT NULL,
	FOREIGN KEY (`part_id`) REFERENCES `part`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `statement_superseded` ON `capability_statement` (`supersedes`);--> statement-breakpoint
CREATE INDEX `statement_by_part` ON `capability_statement` (`part_id`);--> statement-breakpoint
CREATE TABLE `statement_share` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`statement_id` integer NOT NULL,
	`token_digest` text NOT NULL,
	`recipient` text NOT NULL,
	`created_at` integer NOT NULL,
	`expires_at` integer NOT NULL,
	`revoked_at` integer,
	`account_id` integer,
	FOREIGN KEY (`statement_id`) REFERENCES `capability_statement`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `statement_share_token_digest_unique` ON `statement_share` (`token_digest`);--> statement-breakpoint
CREATE INDEX `share_by_statement` ON `statement_share` (`statement_id`);--> statement-breakpoint
CREATE TABLE `statement_view` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`share_id` integer NOT NULL,
	`at` integer NOT NULL,
	`what` text NOT NULL,
	FOREIGN KEY (`share_id`) REFERENCES `statement_share`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `view_by_share` ON `statement_view` (`share_id`);--> statement-breakpoint
CREATE TRIGGER `statement_stays` BEFORE UPDATE ON `capability_statement` BEGIN SELECT raise(ABORT, 'a frozen statement is not changed'); END;--> statement-breakpoint
CREATE TRIGGER `statement_is_kept` BEFORE DELETE ON `capability_statement` BEGIN SELECT raise(ABORT, 'a frozen statement is not removed'); END;--> statement-breakpoint
CREATE TRIGGER `view_stays` BEFORE UPDATE ON `statement_view` BEGIN SELECT raise(ABORT, 'statement_view is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `view_is_kept` BEFORE DELETE ON `statement_view` BEGIN SELECT raise(ABORT, 'statement_view is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `share_stays` BEFORE UPDATE ON `statement_share` WHEN OLD.revoked_at IS NOT NULL OR NEW.revoked_at IS NULL OR NEW.id IS NOT OLD.id OR NEW.statement_id IS NOT OLD.statement_id OR NEW.token_digest IS NOT OLD.token_digest OR NEW.recipient IS NOT OLD.recipient OR NEW.created_at IS NOT OLD.created_at OR NEW.expires_at IS NOT OLD.expires_at OR NEW.account_id IS NOT OLD.account_id BEGIN SELECT raise(ABORT, 'a link is revoked once and not changed otherwise'); END;--> statement-breakpoint
CREATE TRIGGER `share_is_kept` BEFORE DELETE ON `statement_share` BEGIN SELECT raise(ABORT, 'a link is revoked, not removed'); END;
