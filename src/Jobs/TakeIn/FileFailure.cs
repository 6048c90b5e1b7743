namespace Athwart.Jobs.TakeIn;

/// <summary>One file could not be taken in.</summary>
/// <param name="message">What is wrong and what to do, for the recordist.</param>
/// <param name="inner">What was underneath, if anything.</param>
internal sealed class FileFailure(string message, Exception? inner = null) : Exception(message, inner)
{
    // errno of Linux and macOS, and the two codes of Windows.
    private const int NoSpaceUnix = 28;
    private const int NoSpaceWindows = unchecked((int)0x80070070);
    private const int NoSpaceWindowsHandle = unchecked((int)0x80070027);
    private const int QuotaLinux = 122;

    /// <summary>Whether the disk of the library is full, so that no other file can do better.</summary>
    public bool DiskFull { get; init; }

    /// <summary>Whether the copy was read back and differed from the card.</summary>
    public bool Differs { get; init; }

    /// <summary>Whether it only did not get its turn.</summary>
    public bool Cancelled { get; init; }

    public static bool IsFileError(Exception error) => error is IOException or UnauthorizedAccessException;

    public static FileFailure OfCard(Exception error) => new($"It could not be read from the card ({error.Message}). Check the card and the reader, then run this again.", error);

    public static FileFailure OfLibrary(Exception error) => IsDiskFull(error)
        ? new("The library's disk is full. Free some space, then run this again; what is finished stays.", error) { DiskFull = true }
        : new($"The copy could not be written ({error.Message}). Check the library's disk and its rights, then run this again.", error);

    private static bool IsDiskFull(Exception error) => error is IOException && (OperatingSystem.IsWindows()
        ? error.HResult is NoSpaceWindows or NoSpaceWindowsHandle
        : error.HResult == NoSpaceUnix || (OperatingSystem.IsLinux() && error.HResult == QuotaLinux));
}
