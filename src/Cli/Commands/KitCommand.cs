using Athwart.Cli.Output;
using Athwart.Jobs.Kits;

namespace Athwart.Cli.Commands;

/// <summary><c>kit</c>: the microphones, recorders and wind protections that are owned or considered.</summary>
internal static class KitCommand
{
    public const string Summary = "Keep the microphones, recorders and wind protections that you own or consider, in the library.";

    public static ExampledCommand Create(Screen screen) => new(
        "kit",
        Summary,
        "athwart kit import --demo --library lib",
        "athwart kit list --library lib")
    {
        KitListCommand.Create(screen),
        KitAddCommand.Create(screen),
        KitImportCommand.Create(screen),
        KitExportCommand.Create(screen),
        KitRemoveCommand.Create(screen),
    };

    /// <summary>Says what became of an import or an addition.</summary>
    public static int Finish(Screen screen, KitImportReport report, bool json)
    {
        if (json)
            screen.Line(KitReportJson.Write(report));
        else
            KitTables.Imported(screen, report);
        if (report.Faults.Count > 0)
            return ExitCode.WrongUse;
        return report.Done ? ExitCode.Done : ExitCode.Refused;
    }
}
