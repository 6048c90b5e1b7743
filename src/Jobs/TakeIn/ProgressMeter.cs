namespace Athwart.Jobs.TakeIn;

/// <summary>Counts, and tells the caller now and then; from several threads, one call at a time.</summary>
internal sealed class ProgressMeter(IProgress<TakeInProgress>? progress, TimeProvider time, IReadOnlyList<CardFile> files)
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(100);

    private readonly Lock _turn = new();
    private readonly long _start = time.GetTimestamp();
    private readonly long _bytesTotal = files.Sum(f => f.Length);
    private TimeSpan _told = -Interval;
    private int _filesDone;
    private long _bytesDone;

    public TimeSpan Elapsed => time.GetElapsedTime(_start);

    public void AddBytes(long bytes, string file) => Tell(() => _bytesDone += bytes, file, always: false);

    /// <summary>Settles a file; bytes that were not counted on the way are counted now, bytes counted in vain are not taken back.</summary>
    public void AddFile(long bytes, string file) => Tell(() => (_filesDone, _bytesDone) = (_filesDone + 1, _bytesDone + bytes), file, always: true);

    private void Tell(Action count, string file, bool always)
    {
        lock (_turn)
        {
            count();
            if (progress is null || (!always && Elapsed - _told < Interval))
                return;
            _told = Elapsed;
            var rate = _told > TimeSpan.Zero ? _bytesDone / _told.TotalSeconds : 0;
            TimeSpan? left = rate > 0 ? TimeSpan.FromSeconds(Math.Max(0, _bytesTotal - _bytesDone) / rate) : null;
            progress.Report(new(_filesDone, files.Count, Math.Min(_bytesDone, _bytesTotal), _bytesTotal, rate, left, file));
        }
    }
}
