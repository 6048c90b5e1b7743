using Athwart.Catalogue;
using Athwart.Jobs;
using Athwart.Jobs.Render;
using Athwart.Jobs.TakeIn;
using Athwart.Recordings;

namespace Athwart.Desk.Work;

/// <summary>What went wrong, in the words that a recordist gets.</summary>
internal static class Trouble
{
    /// <summary>The failure and its remedy. Our own failures say both; the machine's are put into words.</summary>
    public static string Words(Exception failure) => failure switch
    {
        JobException or RenderException or TakeInException or RecordingException or LibraryException => failure.Message,
        UnauthorizedAccessException => failure.Message + " Check the rights of the file or folder.",
        IOException => failure.Message + " Check the disk it is on.",
        AggregateException { InnerException: { } inner } => Words(inner),
        _ => $"This is a fault of Athwart itself ({failure.GetType().Name}: {failure.Message}). Your originals are not touched. Please report it.",
    };
}
