using System.Collections.Concurrent;
using System.Collections.Immutable;
using Athwart.Jobs.Progress;

namespace Athwart.Desk.Work;

/// <summary>What is to be done, one after the other: each job uses all processors by itself. Belongs to no window, so closing one stops nothing.</summary>
internal sealed class Worklist : IDisposable
{
    private const int MostRemembered = 30;
    private static readonly TimeSpan BetweenNews = TimeSpan.FromMilliseconds(150);

    private readonly BlockingCollection<WorkItem> _waiting = [];
    private readonly CancellationTokenSource _shutdown = new();
    private readonly OpenLibrary _library;
    private readonly TimeProvider _clock;
    private readonly Lock _turn = new();
    private ImmutableList<WorkItem> _items = [];
    private long _toldAt;

    public Worklist(OpenLibrary library, TimeProvider clock)
    {
        _library = library;
        _clock = clock;
        new Thread(Work) { IsBackground = true, Name = "worklist" }.Start();
    }

    /// <summary>Something began, moved on or ended; told a few times a second at the most.</summary>
    public event EventHandler? Changed;

    /// <summary>The newest first.</summary>
    public IReadOnlyList<WorkItem> Items => _items;

    /// <summary>Puts a job on the list.</summary>
    /// <param name="title">What it is, for people.</param>
    /// <param name="kind">A word for it, such as 'check'.</param>
    /// <param name="subject">The id of what it is done to; empty when it makes something new.</param>
    /// <param name="run">The job.</param>
    public WorkItem Add(string title, string kind, string subject, Func<IProgress<JobProgress>, CancellationToken, object?> run) => Add(new WorkItem(title, kind, subject, run));

    /// <summary>The newest of a kind that is done to this; null for none.</summary>
    public WorkItem? Newest(string kind, string subject) =>
        _items.Find(i => string.Equals(i.Kind, kind, StringComparison.Ordinal) && string.Equals(i.Subject, subject, StringComparison.Ordinal));

    /// <summary>Puts a job that ended early on the list once more.</summary>
    public WorkItem Again(WorkItem item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return Add(item.Again());
    }

    public WorkItem? Find(string id) => _items.Find(i => string.Equals(i.Id, id, StringComparison.Ordinal));

    /// <summary>Takes what is over off the list.</summary>
    public void Clear()
    {
        lock (_turn)
            _items = _items.RemoveAll(i => i.IsOver);
        Tell(always: true);
    }

    /// <summary>Tells every window now.</summary>
    public void Tell() => Tell(always: true);

    public void Dispose()
    {
        _shutdown.Cancel();
        _waiting.CompleteAdding();
    }

    private WorkItem Add(WorkItem item)
    {
        lock (_turn)
        {
            _items = _items.Insert(0, item);
            if (_items.Count > MostRemembered && _items.FindLastIndex(i => i.IsOver) is var last and >= 0)
                _items = _items.RemoveAt(last);
        }

        _waiting.Add(item);
        Tell(always: true);
        return item;
    }

    private void Work()
    {
        try
        {
            foreach (var item in _waiting.GetConsumingEnumerable(_shutdown.Token))
            {
                item.Run(() => Tell(always: false), _shutdown.Token);
                Tell(always: true);
                _library.Tell();
            }
        }
        catch (OperationCanceledException)
        {
            // The desk is closing.
        }
    }

    private void Tell(bool always)
    {
        var now = _clock.GetTimestamp();
        if (!always && _clock.GetElapsedTime(Interlocked.Read(ref _toldAt), now) < BetweenNews)
            return;
        Interlocked.Exchange(ref _toldAt, now);
        Changed?.Invoke(this, EventArgs.Empty);
    }
}
