using System.Globalization;
using Athwart.Figures;

namespace Athwart.Jobs.Pages;

/// <summary>Writes markup; whatever is put in through <c>{value}</c> holes is escaped, <see cref="Raw"/> is not.</summary>
internal sealed class HtmlText(TextWriter writer)
{
    public HtmlText Add(FormattableString markup)
    {
        writer.Write(markup.ToString(Escaping.Instance));
        return this;
    }

    public HtmlText Raw(string markup)
    {
        writer.Write(markup);
        return this;
    }

    /// <summary>Formats each hole by its own format, invariant culture, and escapes what comes out.</summary>
    private sealed class Escaping : IFormatProvider, ICustomFormatter
    {
        public static Escaping Instance { get; } = new();

        public object? GetFormat(Type? formatType) => formatType == typeof(ICustomFormatter) ? this : null;

        public string Format(string? format, object? arg, IFormatProvider? formatProvider) =>
            Markup.Escape(arg is IFormattable value ? value.ToString(format, CultureInfo.InvariantCulture) : arg?.ToString() ?? "");
    }
}
