import type { FrameLocator, Page } from 'playwright-core';

/** How long anything may take on a busy machine with two cores, in milliseconds. */
export const patience = 60_000;

/** The frame in which the outputs of the notebook in the active editor are drawn. */
export const innerFrame = (page: Page): FrameLocator =>
  page.frameLocator('iframe.webview.ready >> visible=true').frameLocator('iframe#active-frame');
