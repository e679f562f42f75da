/** What the add-in's page says before there is a pane, or instead of it. */
export interface Notice {
  readonly heading: string;
  readonly steps: readonly string[];
}

export const excelWords = {
  starting: "Downfeed is starting …",
  waiting: {
    heading: "Still waiting for Excel",
    steps: [
      "Excel has not answered yet. With a large workbook or over a slow connection that takes a while; the pane opens by itself as soon as it does.",
    ],
  },
  failed: (why: string): Notice => ({
    heading: "The pane could not be started",
    steps: [`${why}.`],
  }),
  noOffice: {
    heading: "Excel's library did not arrive",
    steps: [
      "This page needs office.js, which it loads from appsforoffice.microsoft.com. Check the connection, and whether a filter blocks that address; then reload the pane.",
      "Cells keep the values that they have until then.",
    ],
  },
  noExcel: {
    heading: "This page is Downfeed's pane in Excel",
    steps: [
      "Opened by itself it has no workbook to work on.",
      "In Excel: choose Downfeed on the Home tab. If it is not there yet, on the web: Home, Add-ins, More Settings, Upload My Add-in, and choose the file manifest.xml.",
    ],
  },
  noFunctions: {
    heading: "The cell functions did not arrive",
    steps: [
      "The file functions.js beside this page could not be loaded. Reload the pane; if that does not help, ask the person who installed Downfeed.",
    ],
  },
  unknownWhetherShown: (why: string) => `Excel does not tell whether the pane is shown: ${why}`,
  reload: "Reload the pane",
  reloadAll:
    "If reloading does not help: on Windows, click into the pane and press Ctrl+F5, which fetches its files anew; on a Mac, choose Clear Web Cache in the small menu at the pane's upper corner.",
  workbench: "Open the workbench, which needs no Excel",
};
