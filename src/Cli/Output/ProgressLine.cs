using System.Diagnostics;
using System.Globalization;
using Athwart.Jobs.Progress;

namespace Athwart.Cli.Output;

/// <summary>One line on standard error that says how far a job has come: share, rate, time left.</summary>
/// <remarks>Silent where nobody watches, so that logs and pipes stay clean.</remarks>
internal sealed class ProgressLine : IProgress<JobProgress>, IDisposable
{
    private const int RedrawMilliseconds = 100;

    private readonly Screen _screen;
    private readonly Stopwatch _clock = Stopwatch.StartNew();
    private readonly Lock _gate = new();
    private long _drawnAt = -RedrawMilliseconds;
    private int _drawnLength;

    public ProgressLine(Screen screen) => _screen = screen;

    /// <inheritdoc/>
    public void Report(JobProgress value)
    {
        if (!_screen.Interactive)
            return;
        lock (_gate)
        {
            var now = _clock.ElapsedMilliseconds;
            if (now - _drawnAt < RedrawMilliseconds)
                return;
            _drawnAt = now;
            Draw(Text(value, _clock.Elapsed.TotalSeconds));
        }
    }

    /// <summary>What is shown for a state after so many seconds.</summary>
    internal static string Text(JobProgress value, double seconds)
    {
        if (value.Total <= 0)
            return value.Step;
        var share = Math.Clamp((double)value.Done / value.Total, 0, 1);
        var left = share > 0 ? seconds * (1 - share) / share : 0;
        var rate = string.Equals(value.Unit, "bytes", StringComparison.Ordinal) && seconds > 0
            ? string.Create(CultureInfo.InvariantCulture, $", {value.Done / seconds / 1e6:0} MB/s")
            : "";
        return string.Create(CultureInfo.InvariantCulture, $"{share * 100,3:0} %{rate}, {left:0} s left  {value.Step}");
    }

    /// <summary>Wipes the line, so that what follows starts clean.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            if (_drawnLength > 0)
                Draw("");
            if (_drawnLength > 0)
                _screen.ErrorOutput.Write('\r');
        }
    }

    private void Draw(string text)
    {
        var width = Math.Max(20, _screen.ErrorConsole.Profile.Width - 1);
        var shown = text.Length > width ? text[..width] : text;
        _screen.ErrorOutput.Write("\r" + shown.PadRight(Math.Min(width, _drawnLength)));
        _drawnLength = shown.Length == 0 ? _drawnLength : Math.Max(shown.Length, _drawnLength);
    }
}
