using Athwart.Catalogue;
using Athwart.Desk.Work;
using Microsoft.AspNetCore.Components;

namespace Athwart.Desk.Layout;

/// <summary>A page that looks again when the library or the worklist changes, and that says what went wrong instead of breaking.</summary>
public abstract class DeskPage : ComponentBase, IDisposable
{
    private bool _gone;

    [Inject] internal OpenLibrary Library { get; set; } = default!;

    [Inject] internal Worklist Work { get; set; } = default!;

    [Inject] internal NavigationManager Navigation { get; set; } = default!;

    /// <summary>The session that is looked at, from the address; the newest unless said.</summary>
    [SupplyParameterFromQuery(Name = "session")] public string? SessionText { get; set; }

    /// <summary>What went wrong last, with the remedy; empty when nothing did.</summary>
    protected string Problem { get; set; } = "";

    /// <summary>What was done last, for a moment.</summary>
    protected string Notice { get; set; } = "";

    internal Session? Session { get; private set; }

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    protected override void OnInitialized()
    {
        Library.Changed += LookAgain;
        Work.Changed += ShowAgain;
    }

    protected override void OnParametersSet() => Load();

    /// <summary>Reads what the page shows.</summary>
    protected abstract void Look();

    /// <summary>Does something and says what went wrong, if anything.</summary>
    /// <returns>Whether it went well.</returns>
    protected bool Try(Action action, string notice = "")
    {
        ArgumentNullException.ThrowIfNull(action);
        (Problem, Notice) = ("", "");
        try
        {
            action();
            Notice = notice;
            return true;
        }
#pragma warning disable CA1031 // Whatever it is, the page stays and says so.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Problem = Trouble.Words(e);
            return false;
        }
    }

    /// <summary>An address of the desk that keeps to the session.</summary>
    protected string Here(string path) => Session is null ? path : $"{path}{(path?.Contains('?', StringComparison.Ordinal) == true ? '&' : '?')}session={Session.Id}";

    protected virtual void Dispose(bool disposing)
    {
        _gone = true;
        Library.Changed -= LookAgain;
        Work.Changed -= ShowAgain;
    }

    // What was said last stays: looking again is nobody's doing.
    private void Load()
    {
        var (problem, notice) = (Problem, Notice);
        var went = Try(() =>
        {
            Session = Library.Read(l => SessionText is { Length: > 0 } id ? l.GetSession(new SessionId(id)) ?? l.FindSession(id) : l.Sessions() is [var newest, ..] ? newest : null, null);
            Look();
        });
        Notice = notice;
        if (went && Problem.Length == 0)
            Problem = problem;
    }

    private void LookAgain(object? sender, EventArgs e) => Later(Load);

    private void ShowAgain(object? sender, EventArgs e) => Later(() => { });

    private void Later(Action action)
    {
        if (_gone)
            return;
        _ = InvokeAsync(() =>
        {
            if (_gone)
                return;
            action();
            StateHasChanged();
        });
    }
}
