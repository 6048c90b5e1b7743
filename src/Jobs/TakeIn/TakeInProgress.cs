namespace Athwart.Jobs.TakeIn;

/// <summary>How far a take-in has come.</summary>
/// <param name="FilesDone">Files that are settled, well or badly.</param>
/// <param name="FilesTotal">Files on the card.</param>
/// <param name="BytesDone">Bytes read back or recognised.</param>
/// <param name="BytesTotal">Bytes on the card.</param>
/// <param name="BytesPerSecond">Mean rate since the start; 0 at the start.</param>
/// <param name="TimeLeft">Time left at that rate; null while there is none.</param>
/// <param name="CurrentFile">The file at work, relative to the card.</param>
public sealed record TakeInProgress(int FilesDone, int FilesTotal, long BytesDone, long BytesTotal, double BytesPerSecond, TimeSpan? TimeLeft, string CurrentFile);
