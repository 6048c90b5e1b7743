using Athwart.Catalogue;
using Athwart.Jobs;
using Athwart.Jobs.Render;
using Athwart.Jobs.TakeIn;
using Athwart.Recordings;

namespace Athwart.Cli;

/// <summary>Turns the kind of a failure into an exit code and words for the recordist.</summary>
internal static class Failures
{
    /// <summary>Runs a command's work and answers for whatever it throws.</summary>
    public static int Run(Screen screen, Func<int> work)
    {
        try
        {
            return work();
        }
        catch (OperationCanceledException)
        {
            screen.Error("Cancelled. What was finished is kept; run the same command again to go on.");
            return ExitCode.Cancelled;
        }
        catch (Exception e)
        {
            screen.Error(e.Message);
            return CodeFor(e, screen);
        }
    }

    private static int CodeFor(Exception failure, Screen screen) => failure switch
    {
        JobException { Kind: JobErrorKind.WrongUse } => ExitCode.WrongUse,
        JobException { Kind: JobErrorKind.Refused } => ExitCode.Refused,
        JobException => ExitCode.Storage,
        RenderException { Kind: RenderErrorKind.Request } => ExitCode.WrongUse,
        RenderException { Kind: RenderErrorKind.Overload or RenderErrorKind.NotANumber } => ExitCode.Refused,
        RenderException => ExitCode.UnreadableRecording,
        TakeInException { Kind: TakeInErrorKind.CardNotFound or TakeInErrorKind.LibraryOnCard } => ExitCode.WrongUse,
        TakeInException => ExitCode.Storage,
        RecordingException => ExitCode.UnreadableRecording,
        LibraryException { Kind: LibraryErrorKind.NotFound or LibraryErrorKind.NotALibrary } => ExitCode.WrongUse,
        LibraryException => ExitCode.Storage,
        IOException or UnauthorizedAccessException => ExitCode.Storage,
        _ => Internal(failure, screen),
    };

    private static int Internal(Exception failure, Screen screen)
    {
        screen.Error("This is a fault of Athwart itself; your originals are not touched. Please report it with these lines:");
        screen.Error(failure.ToString());
        return ExitCode.Internal;
    }
}
