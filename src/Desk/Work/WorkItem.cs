using Athwart.Jobs.Progress;

namespace Athwart.Desk.Work;

/// <summary>Where a piece of work stands.</summary>
internal enum WorkState
{
    Waiting = 0,
    Running,
    Done,
    Cancelled,
    Failed,
}

/// <summary>A job on the list: seen the same from every window.</summary>
#pragma warning disable CA1001 // Its cancellation holds nothing that must be given back, and may be asked for long after the end.
internal sealed class WorkItem(string title, string kind, string subject, Func<IProgress<JobProgress>, CancellationToken, object?> run)
#pragma warning restore CA1001
{
    private readonly CancellationTokenSource _stop = new();

    public string Id { get; } = Guid.NewGuid().ToString("N")[..12];

    /// <summary>What it is, for people.</summary>
    public string Title { get; } = title;

    /// <summary>'take-in', 'check', 'deliver', 'verify', 'propose', 'cut-find'.</summary>
    public string Kind { get; } = kind;

    /// <summary>The id of what it is done to, so that a page shows only what concerns it; empty when it makes something new.</summary>
    public string Subject { get; } = subject;

    public WorkState State { get; private set; }

    public JobProgress? Progress { get; private set; }

    /// <summary>The job's report, when it came to its end.</summary>
    public object? Report { get; private set; }

    /// <summary>What went wrong, with the remedy.</summary>
    public string Problem { get; private set; } = "";

    public bool IsOver => State is WorkState.Done or WorkState.Cancelled or WorkState.Failed;

    /// <summary>Done so far in percent; null when there is nothing to measure by.</summary>
    public double? Percent => State == WorkState.Done ? 100 : Progress is { Total: > 0 } p ? Math.Clamp(100.0 * p.Done / p.Total, 0, 100) : null;

    /// <summary>Asks it to end; one that waits never begins.</summary>
    public void Cancel()
    {
        _stop.Cancel();
        if (State == WorkState.Waiting)
            State = WorkState.Cancelled;
    }

    /// <summary>The same once more: every job carries on where it stopped.</summary>
    public WorkItem Again() => new(Title, Kind, Subject, run);

    /// <summary>Runs to the end; never throws.</summary>
    public void Run(Action tell, CancellationToken shutdown)
    {
        if (IsOver)
            return;
        State = WorkState.Running;
        tell();
        using var both = CancellationTokenSource.CreateLinkedTokenSource(_stop.Token, shutdown);
        try
        {
            Report = run(new Teller(this, tell), both.Token);
            State = both.IsCancellationRequested ? WorkState.Cancelled : WorkState.Done;
        }
        catch (OperationCanceledException)
        {
            State = WorkState.Cancelled;
        }
#pragma warning disable CA1031 // The list goes on whatever a job throws, and says what it was.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Problem = Trouble.Words(e);
            State = WorkState.Failed;
        }
    }

    private sealed class Teller(WorkItem item, Action tell) : IProgress<JobProgress>
    {
        public void Report(JobProgress value)
        {
            item.Progress = value;
            tell();
        }
    }
}
