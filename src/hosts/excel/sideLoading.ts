/** How a person gives the add-in's manifest.xml to the spreadsheet program, by where that runs. */
export const sideLoading: readonly { readonly where: string; readonly steps: string }[] = [
  {
    where: "Windows",
    steps:
      "put manifest.xml into a shared folder, add that folder under File, Options, Trust Center, Trusted " +
      "Add-in Catalogs, start the program again; then Insert, My Add-ins, Shared Folder.",
  },
  {
    where: "Mac",
    steps:
      "copy manifest.xml to ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef/ and start the " +
      "program again; then Insert, My Add-ins.",
  },
  { where: "Web", steps: "Insert, Add-ins, Upload My Add-in, and choose manifest.xml." },
];
