using System.Collections.Concurrent;
using Athwart.Catalogue;
using Athwart.Jobs.Listening;
using Athwart.Jobs.Strips;

namespace Athwart.Desk.Work;

/// <summary>The shapes of takes: from the stored peaks, made two at a time where they are missing, and remembered.</summary>
internal sealed class Strips(ListeningRoom room) : IDisposable
{
    private const int Columns = 600;
    private const int MostRemembered = 4000;
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(60);

    private readonly SemaphoreSlim _turn = new(2);
    private readonly ConcurrentDictionary<string, TakeStrip> _known = new(StringComparer.Ordinal);

    /// <summary>The shape; null when it cannot be had.</summary>
    public async Task<TakeStrip?> OfAsync(TakeId take, CancellationToken cancellation)
    {
        await _turn.WaitAsync(cancellation);
        try
        {
            using var lease = await Task.Run(() => room.Rent(take, cancellation), cancellation);
            if (_known.TryGetValue(lease.Take.Key, out var known))
                return known;
            PeakState state;
            while ((state = lease.Peaks()) is { Pyramid: null, Error: null })
                await Task.Delay(Pause, cancellation);
            if (state.Pyramid is null)
                return null;
            if (_known.Count > MostRemembered)
                _known.Clear();
            return _known[lease.Take.Key] = TakeStrip.Of(state.Pyramid, Columns);
        }
        catch (Exception e) when (e is not OperationCanceledException && cancellation.IsCancellationRequested is false)
        {
            return null;
        }
        finally
        {
            _turn.Release();
        }
    }

    public void Dispose() => _turn.Dispose();
}
