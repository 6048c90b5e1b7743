using Athwart.Jobs.Progress;

namespace Athwart.Jobs.Listening;

/// <summary>The peaks of one open take: opened where they are stored, else made in the background.</summary>
internal sealed class PeakStore(ListeningTake take, string path) : IDisposable
{
    private readonly Lock _lock = new();
    private readonly CancellationTokenSource _stop = new();
    private Task<PeakPyramid>? _work;
    private double _fraction;

    /// <summary>Begins when it must, and says how far it is.</summary>
    public PeakState State()
    {
        lock (_lock)
        {
            _work ??= Begin();
            if (_work.IsCompletedSuccessfully)
                return new(_work.Result, 1, null);
            if (!_work.IsCompleted)
                return new(null, Volatile.Read(ref _fraction), null);
            var error = _work.Exception?.GetBaseException() ?? new OperationCanceledException();
            _work = null;
            return new(null, 0, error);
        }
    }

    /// <summary>Whether peaks are being made.</summary>
    public bool IsWorking
    {
        get
        {
            lock (_lock)
                return _work is { IsCompleted: false };
        }
    }

    public void Stop() => _stop.Cancel();

    /// <summary>Closes the take and its peaks, at once or when the maker, which still reads, has stopped.</summary>
    public void Dispose()
    {
        lock (_lock)
        {
            if (_work is null or { IsCompleted: true })
                Close(_work);
            else
                _ = _work.ContinueWith(Close, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        }
    }

    private void Close(Task<PeakPyramid>? done)
    {
        if (done is { IsCompletedSuccessfully: true })
            done.Result.Dispose();
        take.Dispose();
        _stop.Dispose();
    }

    private Task<PeakPyramid> Begin() =>
        Stored() is { } pyramid ? Task.FromResult(pyramid) : Task.Run(Make);

    private PeakPyramid Make()
    {
        PeakJob.Run(take.Recording, take.Roles, path, new Fraction(this), _stop.Token);
        return Stored() ?? throw new JobException(JobErrorKind.Storage, $"The peaks of '{take.Catalogued.Name}' were made, but cannot be read back.", "Look whether the disk of the library is full.");
    }

    private PeakPyramid? Stored() => PeakPyramid.TryOpen(path, take.Recording.FrameCount, take.Recording.SampleRateHertz);

    // Set at once on the worker's thread; Progress<T> would post it elsewhere.
    private sealed class Fraction(PeakStore store) : IProgress<JobProgress>
    {
        public void Report(JobProgress value) => Volatile.Write(ref store._fraction, value.Total == 0 ? 0 : (double)value.Done / value.Total);
    }
}
